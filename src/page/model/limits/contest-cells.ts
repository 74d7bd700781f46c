import type { CellFigures, ContestCell, ContestResult } from '../../../../shared/contest/contest-result.ts';
import { type ChoiceName, choiceNames, type PerChoice } from '../../../../shared/drive/drive.ts';
import { perChoice } from '../../../../shared/drive/per-choice.ts';
import type { Table } from '../../../../shared/words/csv.ts';
import { count, degrees, percent, signedDegrees } from '../../../../shared/words/figures.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { quantity, quantityParts } from '../../../../shared/words/quantity.ts';

/** How a cell is told apart, without colour too. */
export const cellLetters: PerChoice<string> = { halfBus: 'H', virtualNeutral: 'V' };

/** One cell of the map, as it is drawn and read out. */
export interface MapCell {
	readonly key: string;
	readonly speed: string;
	/** The speed's number alone, for an axis that says the unit: "12 000". */
	readonly rpm: string;
	readonly torque: string;
	readonly state: ChoiceName | 'neither' | 'waiting' | 'left out';
	/** H, V, – where neither is shown to be better; empty where nothing is known yet. */
	readonly letter: string;
	/** Size of the median difference in the winner's favour; '' where none is shown. */
	readonly by: string;
	/** Share of drives that pass with each choice; null where nothing is known. */
	readonly passing: PerChoice<number> | null;
	/** Both choices are shown to fail the requirement: then it matters less which is better. */
	readonly areBothFailing: boolean;
	/** The same for the table: "half-bus", "not shown", "left out"; and the shares that pass, '' where nothing is known. */
	readonly better: string;
	readonly pass: PerChoice<string>;
	/** What the baseline had here, where that was another one; '' for nothing. */
	readonly was: string;
	/** Everything about it in a sentence. */
	readonly says: string;
}

/** Rows of the map from the highest torque down, each from the slowest speed up. */
export function contestCells(result: ContestResult, ghost: ContestResult | null): readonly (readonly MapCell[])[] {
	const { speed, torque, cells } = result;
	const before = new Map((ghost?.cells ?? []).map((cell) => [keyOf(cell), cell]));
	const byPlace = new Map(cells.map((cell) => [keyOf(cell), cell]));
	const rising = (values: readonly number[]): number[] => [...values].sort((one, other) => one - other);
	return rising(torque.values)
		.reverse()
		.map((torqueHere) =>
			rising(speed.values).flatMap((speedHere) => {
				const key = keyOf({ at: { 'operation.speed': speedHere, 'operation.torque': torqueHere } });
				const cell = byPlace.get(key);
				return cell ? [mapCell(cell, before.get(key) ?? null)] : [];
			}),
		);
}

/** The table behind the map. */
export function contestTable({ cells, point }: ContestResult): Table {
	return {
		header: [
			'speed (rpm)',
			'torque (N·m)',
			'better',
			'median of half-bus minus virtual neutral (°)',
			'drives with the smaller error, half-bus',
			'drives with the smaller error, virtual neutral',
			'equal',
			...choiceNames.flatMap((choice) => [
				`median error, ${choiceWords[choice]} (°)`,
				`drives that pass, ${choiceWords[choice]}`,
				`requirement, ${choiceWords[choice]}`,
			]),
			'drives',
			'failed',
			'other conditions of',
		],
		rows: cells.map(({ at, leftOut, figures }) => [
			at['operation.speed'] as number,
			at['operation.torque'] as number,
			leftOut ?? (figures ? betterWords(figures) : ''),
			...(figures
				? [
						figures.medianDifference,
						figures.smaller.halfBus,
						figures.smaller.virtualNeutral,
						figures.ties,
						...choiceNames.flatMap((choice) => [
							figures.choices[choice].medianError,
							figures.choices[choice].passed,
							figures.choices[choice].decision,
						]),
						figures.units.finished,
						figures.units.failed,
					]
				: Array.from({ length: 12 }, () => '')),
			point,
		]),
	};
}

const betterWords = ({ better }: CellFigures): string => (better === 'not shown' ? 'not shown' : choiceWords[better]);

const keyOf = ({ at }: Pick<ContestCell, 'at'>): string => `${at['operation.speed']} ${at['operation.torque']}`;

function mapCell(cell: ContestCell, ghost: ContestCell | null): MapCell {
	const { at, leftOut, figures } = cell;
	const speedHere = at['operation.speed'] as number;
	const speed = quantity(speedHere, 'rpm');
	const torque = quantity(at['operation.torque'] as number, 'N·m', 3);
	const place = {
		key: keyOf(cell),
		speed,
		rpm: quantityParts(speedHere, 'rpm').number,
		torque,
		was: '',
		by: '',
		pass: perChoice(() => ''),
		better: '',
		passing: null,
		areBothFailing: false,
	};
	const where = `${speed}, ${torque}`;
	if (leftOut !== null) {
		return {
			...place,
			state: 'left out',
			letter: '×',
			better: 'left out',
			says: `${where}: cannot be simulated, ${leftOut}.`,
		};
	}
	if (!figures) return { ...place, state: 'waiting', letter: '', says: `${where}: no drive is finished yet.` };
	const { better, medianDifference, smaller, units, choices } = figures;
	const letter = better === 'not shown' ? '–' : cellLetters[better];
	const old = ghost?.figures?.better;
	const was = old && old !== better ? (old === 'not shown' ? '–' : cellLetters[old]) : '';
	const share = (choice: ChoiceName): number => choices[choice].passed / (units.finished + units.failed);
	return {
		...place,
		state: better === 'not shown' ? 'neither' : better,
		letter,
		by: better === 'not shown' ? '' : Number.isFinite(medianDifference) ? degrees(Math.abs(medianDifference)) : 'lock',
		passing: { halfBus: share('halfBus'), virtualNeutral: share('virtualNeutral') },
		areBothFailing: choiceNames.every((choice) => choices[choice].decision === 'fails'),
		better: betterWords(figures),
		pass: perChoice((choice) => percent(share(choice))),
		was,
		says: [
			`${where}: ${verdictWords(figures)}, smaller error with half-bus in ${count(smaller.halfBus)} and with virtual neutral in ${count(smaller.virtualNeutral)} of ${count(units.finished)} drives`,
			...choiceNames.map(
				(choice) =>
					`${percent(share(choice))} pass with ${choiceWords[choice]} (${requirementWords[choices[choice].decision]})`,
			),
			...(was
				? [
						`in the baseline ${old === 'not shown' ? 'neither was shown to be better' : `${choiceWords[old as ChoiceName]} was better`}`,
					]
				: []),
		].join('; '),
	};
}

const requirementWords = {
	holds: 'the requirement holds',
	fails: 'the requirement fails',
	undecided: 'the requirement is not decided',
};

function verdictWords({ better, medianDifference }: CellFigures): string {
	if (better === 'not shown') {
		return Number.isFinite(medianDifference)
			? `neither is shown to be better (median difference ${signedDegrees(medianDifference)})`
			: 'neither is shown to be better';
	}
	return Number.isFinite(medianDifference)
		? `${choiceWords[better]} is better by ${degrees(Math.abs(medianDifference))} in the median`
		: `${choiceWords[better]} is better, the other loses lock in most drives`;
}
