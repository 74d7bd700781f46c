import type { ChoiceName } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { Interval } from '../statistics/interval.ts';
import { type Estimate, pairedLimits } from '../statistics/paired-limits.ts';
import type { Change } from '../statistics/quantile-change.ts';
import { shareDifference } from '../statistics/share-difference.ts';
import type { ChoiceChange, PointChange } from '../study/point-change.ts';
import type { ChoiceFigures, PointResult } from '../study/result.ts';

/**
 * What changed at an operating point between two results whose units are not
 * known: from the figures with their intervals alone, as if they were of
 * different drives. Where they were the same ones, limits are wider than need be.
 * Crossings are left out, their rates have no common interval.
 */
export function figuresChange(before: PointResult, after: PointResult, level: number): PointChange {
	const choice = (name: ChoiceName): ChoiceChange => {
		const [first, second] = [before.choices[name], after.choices[name]];
		return {
			typical: change(
				estimate(first.unitError.median, first.unitError.medianInterval),
				estimate(second.unitError.median, second.unitError.medianInterval),
			),
			oneInTwenty: change(
				estimate(first.unitError.q95, first.unitError.q95Interval),
				estimate(second.unitError.q95, second.unitError.q95Interval),
			),
			crossings: null,
			passing: passingChange(first, second, level),
		};
	};
	const gap = ({ paired }: PointResult): Estimate => estimate(paired.medianDifference ?? Number.NaN, paired.interval);
	return {
		choices: perChoice(choice),
		gap: change(gap(before), gap(after)),
		units: Math.min(before.paired.units, after.paired.units),
		paired: false,
	};
}

/** An estimate that nothing bounds where there are no limits. */
function estimate(value: number, limits: readonly [number, number] | null): Estimate {
	const [low, high] = limits ?? [-Infinity, Infinity];
	return { value, low, high };
}

function change(before: Estimate, after: Estimate): Change {
	const step = after.value - before.value;
	const limits: Interval = Number.isFinite(step) ? pairedLimits(before, after, 0) : { low: -Infinity, high: Infinity };
	return { before: before.value, after: after.value, change: step, ...limits };
}

function passingChange(before: ChoiceFigures, after: ChoiceFigures, level: number): Change {
	const [was, is] = [before.passing.passed / before.units, after.passing.passed / after.units];
	const limits = shareDifference(after.passing.passed, after.units, before.passing.passed, before.units, level);
	return { before: was, after: is, change: is - was, ...limits };
}
