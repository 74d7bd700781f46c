import type { PerChoice } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { Interval } from '../statistics/interval.ts';
import { type Change, quantileChange } from '../statistics/quantile-change.ts';
import { pairedShareDifference, shareDifference } from '../statistics/share-difference.ts';
import { unitValues } from './choice-figures.ts';
import { type CrossingChange, crossingChange } from './crossing-change.ts';
import { type StudyColumns, unitStates } from './merge.ts';
import { areMostLost } from './paired-figures.ts';
import type { StudyPlan } from './plan.ts';
import { unitJudge } from './unit-passes.ts';

/** A study's units as simulated, with the plan that made them. */
export interface UnitRecord {
	readonly plan: StudyPlan;
	readonly study: StudyColumns;
}

/** What changed for one choice at one operating point. Degrees, shares of one, rates per measured sector. */
export interface ChoiceChange {
	/** Median over units of the 95 % quantile of |angle error|. */
	readonly typical: Change;
	/** 95 % quantile over units of the same: 1 drive in 20 exceeds it. */
	readonly oneInTwenty: Change;
	/** Early, late and missed crossings per operating hour; null where they are counted and either side saw none. */
	readonly crossings: CrossingChange | null;
	/** Share of units that pass the point's requirement. */
	readonly passing: Change;
}

export interface PointChange {
	readonly choices: PerChoice<ChoiceChange>;
	/** Median over units of half-bus minus virtual neutral. */
	readonly gap: Change;
	/** Units compared. */
	readonly units: number;
	/** True where both sides are the same units: same seed, drawn alike. */
	readonly paired: boolean;
}

/** A record at one of its points. */
export interface PlaceInRecord {
	readonly record: UnitRecord;
	readonly point: number;
}

const level = 0.95;

/**
 * What changed from one state of a drive to another at an operating point, over
 * the units that finished in both. With equal seeds unit i is the same draw of
 * parts, starts and noise on both sides, and the limits are those of pairs.
 * Null where no unit finished in both.
 */
export function pointChange(before: PlaceInRecord, after: PlaceInRecord): PointChange | null {
	const paired = before.record.plan.seed === after.record.plan.seed;
	const finished = finishedInBoth(before.record.study, after.record.study);
	if (finished.length === 0) return null;
	const values = (side: PlaceInRecord, choice: number, name: Parameters<typeof unitValues>[1]): Float64Array =>
		unitValues({ study: side.record.study, finished, point: side.point, choice }, name);
	const options = { level, paired };
	const choiceChange = (choice: number): ChoiceChange => {
		const [first, second] = [values(before, choice, 'unitError'), values(after, choice, 'unitError')];
		return {
			typical: quantileChange(first, second, 0.5, options),
			oneInTwenty: quantileChange(first, second, 0.95, options),
			crossings: crossingChange(sideOf(before), sideOf(after), finished, { choice, ...options }),
			passing: passingChange(before, after, finished, choice, paired),
		};
	};
	const gapOf = (side: PlaceInRecord): Float64Array => {
		const [own, others] = [values(side, 0, 'unitError'), values(side, 1, 'unitError')];
		if (areMostLost(own, others)) return own.fill(Number.NaN);
		// a drive lost with both is lost with neither more
		return own.map((error, i) => (error === others[i] ? 0 : error - (others[i] as number)));
	};
	return {
		choices: perChoice((_, choice) => choiceChange(choice)),
		gap: quantileChange(gapOf(before), gapOf(after), 0.5, options),
		units: finished.length,
		paired,
	};
}

const sideOf = ({ record, point }: PlaceInRecord) => ({ ...record, point });

function finishedInBoth(first: StudyColumns, second: StudyColumns): Uint32Array {
	const both: number[] = [];
	for (let unit = 0; unit < Math.min(first.units, second.units); unit++) {
		if (first.states[unit] === unitStates.finished && second.states[unit] === unitStates.finished) both.push(unit);
	}
	return Uint32Array.from(both);
}

function passingChange(
	before: PlaceInRecord,
	after: PlaceInRecord,
	finished: Uint32Array,
	choice: number,
	paired: boolean,
): Change {
	const passes = ({ record: { plan, study }, point }: PlaceInRecord): boolean[] => {
		const judge = unitJudge(plan.scenario);
		return Array.from(finished, (unit) => judge.passesPoint(study.columns, unit, point, choice));
	};
	const [first, second] = [passes(before), passes(after)];
	const n = finished.length;
	const tally = (was: boolean, is: boolean): number => first.filter((one, i) => one === was && second[i] === is).length;
	const both = tally(true, true);
	const onlyFirst = tally(true, false);
	const onlySecond = tally(false, true);
	const limits: Interval = paired
		? pairedShareDifference({ both, onlyFirst: onlySecond, onlySecond: onlyFirst, neither: tally(false, false) }, level)
		: shareDifference(both + onlySecond, n, both + onlyFirst, n, level);
	const [was, is] = [(both + onlyFirst) / n, (both + onlySecond) / n];
	return { before: was, after: is, change: is - was, ...limits };
}
