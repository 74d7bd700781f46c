import { choiceNames, type PerChoice } from '../drive/drive.ts';
import type { ChoiceFigures } from '../study/result.ts';
import type { ErrorBin, ErrorBins } from './error-bins.ts';

/**
 * An earlier result's errors in the bins of the present one, so that both can be
 * drawn over each other. Its counts are scaled to the present number of
 * commutations; a bin that the earlier grid cuts is shared out by overlap.
 */
export function ghostBins(
	{ bins, total }: ErrorBins,
	before: PerChoice<Pick<ChoiceFigures, 'histogram'>>,
): readonly ErrorBin[] {
	return choiceNames.flatMap((choice) => {
		const { start, step, counts } = before[choice].histogram;
		const all = counts.reduce((sum, one) => sum + one, 0);
		if (all === 0) return [];
		/** Commutations below an angle. */
		const below = (angle: number): number => {
			const place = Math.min(Math.max((angle - start) / step, 0), counts.length);
			const whole = Math.floor(place + 1e-9);
			let sum = 0;
			for (let i = 0; i < whole; i++) sum += counts[i] as number;
			return sum + Math.max(0, place - whole) * (counts[whole] ?? 0);
		};
		return bins
			.filter((bin) => bin.choice === choice)
			.map(({ from, to }): ErrorBin => {
				const inside = Math.max(0, below(to) - below(from));
				return {
					choice,
					from,
					to,
					count: (inside * total[choice]) / all,
					share: inside / all,
					cumulative: below(to) / all,
				};
			});
	});
}
