import { sectorWords } from '../words/names.ts';
import { kindCountNames, kindSumNames } from './columns.ts';
import type { StudyColumns } from './merge.ts';

interface UnitFigureRecord {
	/** What it is of a drive, in print. */
	readonly words: string;
	/** The same, shorter. */
	readonly short: string;
	/** Signed figures have a good middle; the others are the better the smaller. */
	readonly signed: boolean;
	/** The figure of one unit that kept lock. @param cell its place in the columns */
	readonly of: (columns: StudyColumns['columns'], cell: number) => number;
}

/** Figures of one unit at one point, degrees; every list of them loops over these records. */
export const unitFigures = {
	error95: {
		words: '95 % of |errors| within',
		short: '95 % figure',
		signed: false,
		of: (columns, cell) => columns.unitError[cell] as number,
	},
	mean: {
		words: 'mean error',
		short: 'mean error',
		signed: true,
		of: (columns, cell) => (columns.errorSum[cell] as number) / (columns.sectors[cell] as number),
	},
	rms: {
		words: 'rms error',
		short: 'rms error',
		signed: false,
		of: (columns, cell) => Math.sqrt((columns.errorSquares[cell] as number) / (columns.sectors[cell] as number)),
	},
	worstSector: {
		words: 'worst of six sector means',
		short: 'worst sector mean',
		signed: false,
		of(columns, cell) {
			let worst = 0;
			for (let kind = 0; kind < kindCountNames.length; kind += 1) {
				const sectors = columns[kindCountNames[kind as 0]][cell] as number;
				const sum = columns[kindSumNames[kind as 0]][cell] as number;
				if (sectors > 0) worst = Math.max(worst, Math.abs(sum / sectors));
			}
			return worst;
		},
	},
	spread: {
		words: 'spread (standard deviation)',
		short: 'spread',
		signed: false,
		of(columns, cell) {
			const sectors = columns.sectors[cell] as number;
			const sum = columns.errorSum[cell] as number;
			const squares = (columns.errorSquares[cell] as number) - (sum * sum) / sectors;
			return sectors < 2 ? 0 : Math.sqrt(Math.max(0, squares) / (sectors - 1));
		},
	},
	risingFalling: {
		words: 'rising less falling sectors',
		short: 'rising less falling',
		signed: true,
		of: (columns, cell) => meanOf(columns, cell, true) - meanOf(columns, cell, false),
	},
} as const satisfies Record<string, UnitFigureRecord>;

export type UnitFigureName = keyof typeof unitFigures;
export const unitFigureNames = Object.keys(unitFigures) as UnitFigureName[];

/** Mean error of the sectors in which the open phase's EMF rises, or falls. */
function meanOf(columns: StudyColumns['columns'], cell: number, rising: boolean): number {
	let sum = 0;
	let sectors = 0;
	for (let kind = 0; kind < sectorWords.length; kind += 1) {
		if (sectorWords[kind]?.rising !== rising) continue;
		sum += columns[kindSumNames[kind as 0]][cell] as number;
		sectors += columns[kindCountNames[kind as 0]][cell] as number;
	}
	return sum / sectors;
}

/** One figure of units at the cells given, in their order; +∞ for a unit that lost lock. */
export function unitFigureValues(
	columns: StudyColumns['columns'],
	cells: ArrayLike<number>,
	name: UnitFigureName,
): Float64Array {
	const { of } = unitFigures[name];
	const values = new Float64Array(cells.length);
	for (let i = 0; i < values.length; i += 1) {
		const cell = cells[i] as number;
		values[i] = (columns.lost[cell] as number) > 0 ? Number.POSITIVE_INFINITY : of(columns, cell);
	}
	return values;
}
