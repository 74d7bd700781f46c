import { choiceNames } from '../drive/drive.ts';
import type { Scenario } from '../scenario/scenario.ts';

/**
 * What is kept of every unit, at every operating point, for each sensing
 * choice: one column each, over all the unit's starts. Study, files and reports
 * loop over this list. Cells lie unit by unit (`cellOf`), so that the columns of
 * neighbouring shards, laid end to end, are those of the whole.
 */

interface ColumnRecord {
	readonly unit: '1' | '°' | '°²' | 'N·m';
	readonly meaning: string;
}

const notComputed = '−1 where the majority window is too long to work them out';

/** Whole numbers, none above `mostCounted`. Files and digests have them in 32 bits (`columnBytes`). */
export const countColumns = {
	runs: { unit: '1', meaning: 'starts simulated' },
	sectors: { unit: '1', meaning: 'measured sectors' },
	early: { unit: '1', meaning: 'early false crossings' },
	late: { unit: '1', meaning: 'late crossings' },
	missed: { unit: '1', meaning: 'missed crossings' },
	freewheel: { unit: '1', meaning: 'early false crossings read while the open phase freewheeled' },
	noise: { unit: '1', meaning: 'early false crossings that noise or ringing made' },
	threshold: { unit: '1', meaning: 'early false crossings that the threshold itself made' },
	lost: { unit: '1', meaning: 'runs that lost lock' },
	torqueNotReached: { unit: '1', meaning: 'runs at full duty and more than 2 % short of the torque' },
	sectors0: { unit: '1', meaning: 'measured sectors a+b−' },
	sectors1: { unit: '1', meaning: 'measured sectors a+c−' },
	sectors2: { unit: '1', meaning: 'measured sectors b+c−' },
	sectors3: { unit: '1', meaning: 'measured sectors b+a−' },
	sectors4: { unit: '1', meaning: 'measured sectors c+a−' },
	sectors5: { unit: '1', meaning: 'measured sectors c+b−' },
} as const satisfies Record<string, ColumnRecord>;

/** Real numbers, kept in 64 bits. */
export const measureColumns = {
	errorSum: { unit: '°', meaning: 'sum of the angle errors' },
	errorSquares: { unit: '°²', meaning: 'sum of the squared angle errors' },
	lowestError: { unit: '°', meaning: 'earliest angle error; +∞ where nothing was measured' },
	highestError: { unit: '°', meaning: 'latest angle error; −∞ where nothing was measured' },
	unitError: { unit: '°', meaning: '95 % quantile of |angle error| over all starts; infinite where a run lost lock' },
	judgedError: { unit: '°', meaning: "the same of the requirement's quantile" },
	earlyChance: { unit: '1', meaning: `sum of the computed probabilities of an early false crossing; ${notComputed}` },
	lateChance: { unit: '1', meaning: `sum of the computed probabilities of a late crossing; ${notComputed}` },
	missedChance: { unit: '1', meaning: `sum of the computed probabilities of a missed crossing; ${notComputed}` },
	torqueSum: { unit: 'N·m', meaning: "sum of the runs' mean torques" },
	errorSum0: { unit: '°', meaning: 'sum of the angle errors of sectors a+b−' },
	errorSum1: { unit: '°', meaning: 'sum of the angle errors of sectors a+c−' },
	errorSum2: { unit: '°', meaning: 'sum of the angle errors of sectors b+c−' },
	errorSum3: { unit: '°', meaning: 'sum of the angle errors of sectors b+a−' },
	errorSum4: { unit: '°', meaning: 'sum of the angle errors of sectors c+a−' },
	errorSum5: { unit: '°', meaning: 'sum of the angle errors of sectors c+b−' },
} as const satisfies Record<string, ColumnRecord>;

/**
 * Where a cell lies in the columns.
 *
 * @param points of the scenario
 * @param unit counted from the columns' first
 * @param choice index into choiceNames
 */
export const cellOf = (points: number, unit: number, point: number, choice: number): number =>
	(unit * points + point) * choiceNames.length + choice;

export type CountName = keyof typeof countColumns;
export type MeasureName = keyof typeof measureColumns;
export type CountColumn = Uint8Array<ArrayBuffer> | Uint16Array<ArrayBuffer> | Uint32Array<ArrayBuffer>;
export type Columns = Record<CountName, CountColumn> & Record<MeasureName, Float64Array<ArrayBuffer>>;

export const countNames = Object.keys(countColumns) as CountName[];
export const measureNames = Object.keys(measureColumns) as MeasureName[];

/** The six kinds of sector, n mod 6. */
type Six<T> = readonly [T, T, T, T, T, T];
export const kindCountNames: Six<CountName> = ['sectors0', 'sectors1', 'sectors2', 'sectors3', 'sectors4', 'sectors5'];
export const kindSumNames: Six<MeasureName> = [
	'errorSum0',
	'errorSum1',
	'errorSum2',
	'errorSum3',
	'errorSum4',
	'errorSum5',
];

/** Largest number a count can reach in a cell: every measured sector of every start. */
export const mostCounted = ({ values }: Pick<Scenario, 'values'>): number =>
	(values['trial.starts'] as number) * (values['trial.measured'] as number);

/**
 * Columns of zeros. A study's counts seldom pass 255, and in one byte each a
 * million units take half the memory.
 *
 * @param cells units × points × choices
 * @param most largest number that a count has to hold
 */
export function emptyColumns(cells: number, most = 2 ** 32 - 1): Columns {
	const Counts = most < 2 ** 8 ? Uint8Array : most < 2 ** 16 ? Uint16Array : Uint32Array;
	const counts = countNames.map((name) => [name, new Counts(cells)]);
	const measures = measureNames.map((name) => [name, new Float64Array(cells)]);
	return Object.fromEntries([...counts, ...measures]) as Columns;
}

/** A column's bytes as files and digests have them, counts in 32 bits however they are kept. (All hosts store numbers with the low byte first.) @param wide room for as many counts, overwritten by the next column */
export function columnBytes(
	column: CountColumn | Float64Array<ArrayBuffer>,
	wide?: Uint32Array<ArrayBuffer>,
): Uint8Array<ArrayBuffer> {
	const isNarrow = column instanceof Uint8Array || column instanceof Uint16Array;
	const { buffer, byteOffset, byteLength } = isNarrow ? widened(column, wide) : column;
	return new Uint8Array(buffer, byteOffset, byteLength);
}

function widened(column: CountColumn, wide = new Uint32Array(column.length)): Uint32Array<ArrayBuffer> {
	wide.set(column);
	return wide;
}

/** Lays `part` into `whole` from cell `at` on. */
export function placeColumns(whole: Columns, part: Columns, at: number): void {
	for (const name of countNames) whole[name].set(part[name], at);
	for (const name of measureNames) whole[name].set(part[name], at);
}

/** Sets cells `from` up to `to` back to zero. */
export function clearColumns(columns: Columns, from: number, to: number): void {
	for (const name of countNames) columns[name].fill(0, from, to);
	for (const name of measureNames) columns[name].fill(0, from, to);
}
