import { type ChoiceName, choiceNames, type PerChoice } from '../drive/drive.ts';
import { unevenMean } from '../statistics/uneven-mean.ts';
import type { JudgedShard } from './judge-drives.ts';
import type { WeightedFigure } from './weakest-result.ts';

/** Weighted averages over drawn drives that were finished. Cells are [drive][choice]. */
export function summariseDraws(
	{ outcomes, perHour, weights }: Pick<JudgedShard, 'outcomes' | 'perHour' | 'weights'>,
	level: number,
): PerChoice<{ readonly failingShare: WeightedFigure; readonly crossingsPerHour: WeightedFigure }> {
	const figure = (values: Float64Array): WeightedFigure => {
		const { mean, standardError, interval, effective, largestShare } = unevenMean(values, level);
		const draws = values.reduce((count, value) => count + (value > 0 ? 1 : 0), 0);
		return { value: mean, standardError, interval, effective, largestShare, draws };
	};
	const entries = choiceNames.map((name, c): [ChoiceName, object] => {
		const cell = (drive: number): number => drive * choiceNames.length + c;
		return [
			name,
			{
				failingShare: figure(weights.map((weight, drive) => ((outcomes[cell(drive)] as number) > 0 ? weight : 0))),
				crossingsPerHour: figure(weights.map((weight, drive) => weight * (perHour[cell(drive)] as number))),
			},
		];
	});
	return Object.fromEntries(entries) as ReturnType<typeof summariseDraws>;
}
