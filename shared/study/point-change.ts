import type { PerChoice } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { Interval } from '../statistics/interval.ts';
import { type Change, quantileChange } from '../statistics/quantile-change.ts';
import { pairedShareDifference, shareDifference } from '../statistics/share-difference.ts';
import { unitValues } from './choice-figures.ts';
import { confidenceLevel as level } from './confidence-level.ts';
import { type CrossingChange, crossingChange, crossingsBy, type Side } from './crossing-change.ts';
import { finishedUnits, type StudyColumns, unitStates } from './merge.ts';
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
	/** Early, late and missed crossings per operating hour; null where either side saw none, or none could be computed. */
	readonly crossings: CrossingChange | null;
	/** How they are come by, also where there is no change to state; null where only figures are known, not units. */
	readonly crossingsBy: CrossingChange['by'] | null;
	/** Share of units that pass the point's requirement. */
	readonly passing: Change;
}

export interface PointChange {
	readonly choices: PerChoice<ChoiceChange>;
	/** Median over units of half-bus minus virtual neutral. */
	readonly gap: Change;
	/** Units compared, of the earlier side; and of the later one, which are as many where they are the same. */
	readonly units: number;
	readonly unitsAfter: number;
	/** True where both sides are the same units: same seed, drawn alike. */
	readonly paired: boolean;
}

/** A record at one of its points. */
export interface PlaceInRecord {
	readonly record: UnitRecord;
	readonly point: number;
}

/**
 * What changed from one state of a drive to another at an operating point. With
 * equal seeds unit i is the same draw of parts, starts and noise on both sides:
 * those that finished in both are compared, with the limits of pairs; else all of
 * either side, as different ones. Null where that leaves a side without a unit.
 */
export function pointChange(before: PlaceInRecord, after: PlaceInRecord): PointChange | null {
	const paired = before.record.plan.seed === after.record.plan.seed;
	const [was, is] = [before, after].map(({ record }) => record.study) as [StudyColumns, StudyColumns];
	const both = paired ? finishedInBoth(was, is) : null;
	const sides = { before: sideOf(before, both ?? finishedUnits(was)), after: sideOf(after, both ?? finishedUnits(is)) };
	const counts = { units: sides.before.finished.length, unitsAfter: sides.after.finished.length };
	if (counts.units === 0 || counts.unitsAfter === 0) return null;
	const values = ({ study, finished, point }: Side, choice: number, name: Parameters<typeof unitValues>[1]) =>
		unitValues({ study, finished, point, choice }, name);
	const options = { level, paired };
	const choiceChange = (choice: number): ChoiceChange => {
		const [first, second] = [values(sides.before, choice, 'unitError'), values(sides.after, choice, 'unitError')];
		return {
			typical: quantileChange(first, second, 0.5, options),
			oneInTwenty: quantileChange(first, second, 0.95, options),
			crossings: crossingChange(sides.before, sides.after, { choice, ...options }),
			crossingsBy: crossingsBy(sides.before, sides.after, choice),
			passing: passingChange(sides.before, sides.after, choice, paired),
		};
	};
	const gapOf = (side: Side): Float64Array => {
		const [own, others] = [values(side, 0, 'unitError'), values(side, 1, 'unitError')];
		if (areMostLost(own, others)) return own.fill(Number.NaN);
		// a drive lost with both is lost with neither more
		return own.map((error, i) => (error === others[i] ? 0 : error - (others[i] as number)));
	};
	return {
		choices: perChoice((_, choice) => choiceChange(choice)),
		gap: quantileChange(gapOf(sides.before), gapOf(sides.after), 0.5, options),
		...counts,
		paired,
	};
}

const sideOf = ({ record, point }: PlaceInRecord, finished: Uint32Array): Side => ({ ...record, point, finished });

function finishedInBoth(first: StudyColumns, second: StudyColumns): Uint32Array {
	const both: number[] = [];
	for (let unit = 0; unit < Math.min(first.units, second.units); unit++) {
		if (first.states[unit] === unitStates.finished && second.states[unit] === unitStates.finished) both.push(unit);
	}
	return Uint32Array.from(both);
}

function passingChange(before: Side, after: Side, choice: number, paired: boolean): Change {
	const passes = ({ plan, study, point, finished }: Side): boolean[] => {
		const judge = unitJudge(plan.scenario);
		return Array.from(finished, (unit) => judge.passesPoint(study.columns, unit, point, choice));
	};
	const [first, second] = [passes(before), passes(after)];
	const passing = (list: readonly boolean[]): number => list.filter(Boolean).length;
	const [was, is] = [passing(first) / first.length, passing(second) / second.length];
	const tally = (old: boolean, now: boolean): number =>
		first.filter((one, i) => one === old && second[i] === now).length;
	const limits: Interval = paired
		? pairedShareDifference(
				{
					both: tally(true, true),
					onlyFirst: tally(false, true),
					onlySecond: tally(true, false),
					neither: tally(false, false),
				},
				level,
			)
		: shareDifference(passing(second), second.length, passing(first), first.length, level);
	return { before: was, after: is, change: is - was, ...limits };
}
