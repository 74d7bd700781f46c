import type { ChoiceName } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import { apartDifference } from '../statistics/apart-difference.ts';
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
			typical: apartDifference(
				{ value: first.unitError.median, interval: first.unitError.medianInterval },
				{ value: second.unitError.median, interval: second.unitError.medianInterval },
			),
			oneInTwenty: apartDifference(
				{ value: first.unitError.q95, interval: first.unitError.q95Interval },
				{ value: second.unitError.q95, interval: second.unitError.q95Interval },
			),
			crossings: null,
			crossingsBy: null,
			passing: passingChange(first, second, level),
		};
	};
	const gap = ({ paired: { medianDifference, interval } }: PointResult) => ({
		value: medianDifference ?? Number.NaN,
		interval,
	});
	return {
		choices: perChoice(choice),
		gap: apartDifference(gap(before), gap(after)),
		units: before.paired.units,
		unitsAfter: after.paired.units,
		paired: false,
	};
}

function passingChange(before: ChoiceFigures, after: ChoiceFigures, level: number): Change {
	const [was, is] = [before.passing.passed / before.units, after.passing.passed / after.units];
	const limits = shareDifference(after.passing.passed, after.units, before.passing.passed, before.units, level);
	return { before: was, after: is, change: is - was, ...limits };
}
