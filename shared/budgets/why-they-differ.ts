import { choiceNames, type PerChoice } from '../drive/drive.ts';
import { count, degrees, percent } from '../words/figures.ts';
import { choiceWords } from '../words/names.ts';
import type { ChoiceBudgets } from './budgets-result.ts';
import { sectorName } from './budgets-sentence.ts';

/** Normal quantile of a two-sided 95 %. */
const normal95 = 1.959963984540054;

/** Changes below this share of a figure are not told. */
const slight = 0.05;

/**
 * One paragraph on why the three budgets differ, from the figures of the choice
 * and sector kind whose extreme value is largest.
 */
export function whyTheyDiffer(choices: PerChoice<ChoiceBudgets>): string {
	const worst = choiceNames
		.flatMap((choice) => {
			const { worstKind, kinds, drawn } = choices[choice];
			const budgets = worstKind === null ? null : kinds[worstKind];
			return worstKind !== null && budgets?.monteCarlo ? [{ choice, kind: worstKind, drawn, ...budgets }] : [];
		})
		.sort((one, other) => other.extremeValue.linear - one.extremeValue.linear)[0];
	if (!worst?.monteCarlo || worst.rootSumSquare === 0) return 'There is nothing to compare.';
	const { extremeValue, rootSumSquare, propagated, monteCarlo, effects, drawn } = worst;
	const furthest = Math.max(-monteCarlo.min, monteCarlo.max);
	const ratio = extremeValue.linear / rootSumSquare;
	const active = effects.filter(([low, high]) => Math.abs(high - low) / 2 > 0.01 * rootSumSquare).length;
	const sentences = [
		`Taking ${choiceWords[worst.choice]}, ${sectorName(worst.kind)}:`,
		`the extreme value puts all ${active} sources that matter at their worse limits in the same drive; of ${count(drawn)} drawn drives the furthest came to ${degrees(furthest)}, ${percent(furthest / extremeValue.linear)} of the linear sum ±${degrees(extremeValue.linear)}.`,
		boards(extremeValue),
		`The root-sum-square lets independent deviations cancel: it is smaller by a factor of ${ratio.toFixed(1)}, which is √n for n = ${Math.round(ratio * ratio)} equal sources.`,
		`But it adds limits, not standard deviations, and has no confidence of its own: ${percent(monteCarlo.withinRootSumSquare)} of the drawn drives lie within it.`,
		`The draw uses each distribution as stated: its standard deviation is ${degrees(monteCarlo.sd)}, where linear propagation of the same distributions gives ${degrees(propagated)}${agreement(monteCarlo.sd, propagated)}.`,
		shape(monteCarlo, propagated),
	];
	return sentences.filter(Boolean).join(' ');
}

function boards({ linear, low, high }: { linear: number; low: number | null; high: number | null }): string {
	if (low === null || high === null) {
		return 'Run at those limits, the drive loses lock or its crossings: the sum means nothing there.';
	}
	const apart = Math.max(Math.abs(-low - linear), Math.abs(high - linear));
	return apart < slight * linear
		? `Run at those limits, the drive moves as far as the sum says, within ${percent(apart / linear)}: the figure is nearly linear.`
		: `Run at those limits, the drive moves by ${degrees(-low)} down and ${degrees(high)} up: the figure bends, and sensitivities taken one at a time miss that.`;
}

const agreement = (drawn: number, propagated: number): string =>
	Math.abs(drawn / propagated - 1) < slight ? ', nearly the same' : '';

function shape(
	monteCarlo: NonNullable<NonNullable<ChoiceBudgets['kinds'][number]>['monteCarlo']>,
	propagated: number,
): string {
	const { interval, mean } = monteCarlo;
	if (!interval) return '';
	const half = (interval[1] - interval[0]) / 2;
	const normal = normal95 * propagated;
	const narrower = half / normal - 1;
	const shift =
		Math.abs(mean) > slight * half
			? ` Its mean lies ${degrees(Math.abs(mean))} ${mean < 0 ? 'before' : 'after'} the middle drive, which neither of the others can see.`
			: '';
	const form =
		Math.abs(narrower) < slight
			? `Its 95 % interval is as wide as a normal distribution's (±${degrees(normal)}), since many sources add up.`
			: `Its 95 % interval is ${percent(Math.abs(narrower))} ${narrower < 0 ? 'narrower' : 'wider'} than a normal distribution's of that propagated deviation (±${degrees(normal)})${narrower < 0 ? ', since few bounded sources rule it' : ''}.`;
	return form + shift;
}
