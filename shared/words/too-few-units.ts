import { successRunShare, successRunUnits } from '../statistics/success-run.ts';
import type { Requirement } from '../study/unit-passes.ts';
import { count, drives, percent } from './figures.ts';

/**
 * That so few drives cannot show the requirement even where all of them pass; empty where they can.
 *
 * @param what how the words before name what is to be shown
 */
export function tooFewUnits(
	units: number,
	{ share, confidence }: Pick<Requirement, 'share' | 'confidence'>,
	what = 'it',
): string {
	const needed = successRunUnits(share, confidence);
	if (units >= needed) return '';
	const shown = percent(successRunShare(units, confidence), 'down');
	return `${drives(units)} ${units === 1 ? 'is' : 'are'} too few to show ${what}: ${units === 1 ? 'even if it passes, it shows' : 'even if all of them pass, they show'} ${shown}; ${count(needed)} could.`;
}
