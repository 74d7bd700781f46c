import { type ChoiceName, choiceNames, type PerChoice } from '../drive/drive.ts';
import { unevenMean } from '../statistics/uneven-mean.ts';
import type { Requirement } from '../study/unit-passes.ts';
import { failingLimits, failingVerdict } from './failing-verdict.ts';
import { type JudgedShard, notSimulated } from './judge-drives.ts';
import type { WeakestChoice, WeightedFigure } from './weakest-result.ts';

/**
 * Weighted averages over drawn drives that were finished, and whether few enough
 * of them fail. Cells are [drive][choice].
 *
 * @param ordinary share of draws around the middle of all tolerances
 */
export function summariseDraws(
	{ outcomes, perHour, weights }: Pick<JudgedShard, 'outcomes' | 'perHour' | 'weights'>,
	level: number,
	requirement: Requirement,
	ordinary: number,
): PerChoice<Pick<WeakestChoice, 'failingShare' | 'crossingsPerHour' | 'unmeasured' | 'verdict'>> {
	const figure = (values: Float64Array): WeightedFigure => {
		const { mean, standardError, interval, effective, largestShare } = unevenMean(values, level);
		const draws = values.reduce((count, value) => count + (value > 0 ? 1 : 0), 0);
		return { value: mean, standardError, interval, effective, largestShare, draws };
	};
	const entries = choiceNames.map((name, c): [ChoiceName, object] => {
		const cell = (drive: number): number => drive * choiceNames.length + c;
		const outcome = (drive: number): number => outcomes[cell(drive)] as number;
		const failing = weights.map((weight, drive) => (outcome(drive) > 0 ? weight : 0));
		// a drive without a rate adds none: few of the ordinary ones are such, and the mean is over all
		const rate = (drive: number): number => perHour[cell(drive)] as number;
		const isMeasured = (drive: number): boolean => !Number.isNaN(rate(drive));
		const shown = failing.map((weight, drive) => (outcome(drive) === notSimulated ? 0 : weight));
		const share = figure(failing);
		const { low, high } = failingLimits(failing, 1 / ordinary, (1 + level) / 2);
		return [
			name,
			{
				failingShare: { ...share, interval: share.interval && { low, high } },
				verdict: failingVerdict({ failing, shown }, 1 / ordinary, requirement),
				crossingsPerHour: figure(weights.map((weight, drive) => (isMeasured(drive) ? weight * rate(drive) : 0))),
				unmeasured: weights.reduce((count, _, drive) => (isMeasured(drive) ? count : count + 1), 0),
			},
		];
	});
	return Object.fromEntries(entries) as ReturnType<typeof summariseDraws>;
}
