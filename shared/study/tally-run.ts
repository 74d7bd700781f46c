import { causeNames, type RunRecord } from '../drive/drive.ts';
import { eventKinds } from '../words/names.ts';
import { type Columns, type CountColumn, kindCountNames, kindSumNames } from './columns.ts';

/** What a run's sectors are judged by. */
export interface TallyRules {
	/** Sectors before the first measured one: their number sets each sector's kind. */
	readonly firstSector: number;
	/** Crossing error beyond which a crossing is early false or late, degrees. */
	readonly falseMargin: number;
}

const add = (column: CountColumn | Float64Array, cell: number, value: number): void => {
	column[cell] = (column[cell] ?? 0) + value;
};

/** Adds one run of one choice to its unit's cell; `unitError` is left to the whole unit. */
export function tallyRun(columns: Columns, cell: number, run: RunRecord, rules: TallyRules): void {
	const isFirst = columns.runs[cell] === 0;
	let sum = 0;
	let squares = 0;
	let lowest = isFirst ? Number.POSITIVE_INFINITY : (columns.lowestError[cell] ?? 0);
	let highest = isFirst ? Number.NEGATIVE_INFINITY : (columns.highestError[cell] ?? 0);
	for (let j = 0; j < run.measured; j += 1) {
		const error = run.errors[j] ?? Number.NaN;
		if (!Number.isFinite(error)) throw new Error(`angle error of measured sector ${j} is ${error}`);
		sum += error;
		squares += error * error;
		if (error < lowest) lowest = error;
		if (error > highest) highest = error;

		const kind = (rules.firstSector + j) % 6;
		add(columns[kindCountNames[kind as 0]], cell, 1);
		add(columns[kindSumNames[kind as 0]], cell, error);

		const crossing = run.crossings[j] ?? Number.NaN;
		if (Number.isNaN(crossing)) add(columns.missed, cell, 1);
		else if (crossing < -rules.falseMargin) add(columns.early, cell, 1);
		else if (crossing > rules.falseMargin) add(columns.late, cell, 1);
		const cause = run.causes[j] ?? 0;
		if (cause > 0) add(columns[causeNames[cause - 1] ?? 'threshold'], cell, 1);
	}
	add(columns.runs, cell, 1);
	add(columns.sectors, cell, run.measured);
	add(columns.errorSum, cell, sum);
	add(columns.errorSquares, cell, squares);
	columns.lowestError[cell] = lowest;
	columns.highestError[cell] = highest;
	add(columns.torqueSum, cell, run.meanTorque);
	for (const kind of eventKinds) {
		const column = columns[`${kind}Chance`];
		if (run.chances) for (const chance of run.chances[kind]) add(column, cell, chance);
		else column[cell] = -1;
	}
	if (run.lost) add(columns.lost, cell, 1);
	if (run.torqueNotReached) add(columns.torqueNotReached, cell, 1);
}
