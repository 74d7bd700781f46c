import { sectorWords } from '../words/names.ts';
import { type Columns, kindCountNames, kindSumNames } from './columns.ts';

interface UnitFigureRecord {
	/** What it is of a drive, in print. */
	readonly words: string;
	/** The same, shorter. */
	readonly short: string;
	/** Signed figures have a good middle; the others are the better the smaller. */
	readonly signed: boolean;
	/** What gives the figure of one unit that kept lock, by its place in the columns; each column is looked up once for all units. */
	readonly of: (columns: Columns) => (cell: number) => number;
}

/** Figures of one unit at one point, degrees; every list of them loops over these records. */
export const unitFigures = {
	error95: {
		words: '95 % of |errors| within',
		short: '95 % figure',
		signed: false,
		of:
			({ unitError }) =>
			(cell) =>
				unitError[cell] as number,
	},
	mean: {
		words: 'mean error',
		short: 'mean error',
		signed: true,
		of:
			({ errorSum, sectors }) =>
			(cell) =>
				(errorSum[cell] as number) / (sectors[cell] as number),
	},
	rms: {
		words: 'rms error',
		short: 'rms error',
		signed: false,
		of:
			({ errorSquares, sectors }) =>
			(cell) =>
				Math.sqrt((errorSquares[cell] as number) / (sectors[cell] as number)),
	},
	worstSector: {
		words: 'worst of six sector means',
		short: 'worst sector mean',
		signed: false,
		of(columns) {
			const kinds = sectorKinds(columns);
			return (cell) => {
				let worst = 0;
				for (const { sectors, sums } of kinds) {
					const count = sectors[cell] as number;
					if (count > 0) worst = Math.max(worst, Math.abs((sums[cell] as number) / count));
				}
				return worst;
			};
		},
	},
	spread: {
		words: 'spread (standard deviation)',
		short: 'spread',
		signed: false,
		of:
			({ sectors, errorSum, errorSquares }) =>
			(cell) => {
				const count = sectors[cell] as number;
				const sum = errorSum[cell] as number;
				const squares = (errorSquares[cell] as number) - (sum * sum) / count;
				return count < 2 ? 0 : Math.sqrt(Math.max(0, squares) / (count - 1));
			},
	},
	risingFalling: {
		words: 'rising less falling sectors',
		short: 'rising less falling',
		signed: true,
		of(columns) {
			const [rising, falling] = [meanWhere(columns, true), meanWhere(columns, false)];
			return (cell) => rising(cell) - falling(cell);
		},
	},
} as const satisfies Record<string, UnitFigureRecord>;

export type UnitFigureName = keyof typeof unitFigures;
export const unitFigureNames = Object.keys(unitFigures) as UnitFigureName[];

/** Counts and sums of the six kinds of sector. */
const sectorKinds = (columns: Columns) =>
	kindCountNames.map((name, kind) => ({ sectors: columns[name], sums: columns[kindSumNames[kind as 0]] }));

/** Mean error of the sectors in which the open phase's EMF rises, or falls. */
function meanWhere(columns: Columns, rising: boolean): (cell: number) => number {
	const kinds = sectorKinds(columns).filter((_, kind) => sectorWords[kind]?.rising === rising);
	return (cell) => {
		let sum = 0;
		let count = 0;
		for (const { sectors, sums } of kinds) {
			sum += sums[cell] as number;
			count += sectors[cell] as number;
		}
		return sum / count;
	};
}

/** One figure of units at the cells given, in their order; +∞ for a unit that lost lock. @param values room for them */
export function unitFigureValues(
	columns: Columns,
	cells: ArrayLike<number>,
	name: UnitFigureName,
	values = new Float64Array(cells.length),
): Float64Array {
	const of = unitFigures[name].of(columns);
	const { lost } = columns;
	for (let i = 0; i < values.length; i += 1) {
		const cell = cells[i] as number;
		values[i] = (lost[cell] as number) > 0 ? Number.POSITIVE_INFINITY : of(cell);
	}
	return values;
}
