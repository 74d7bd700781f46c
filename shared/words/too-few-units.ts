import { successRunShare, successRunUnits } from '../statistics/success-run.ts';
import type { Requirement } from '../study/unit-passes.ts';
import { count, percent } from './figures.ts';

/** That so few drives cannot show the requirement even where all of them pass; empty where they can. */
export function tooFewUnits(units: number, { share, confidence }: Pick<Requirement, 'share' | 'confidence'>): string {
	const needed = successRunUnits(share, confidence);
	if (units >= needed) return '';
	const shown = percent(successRunShare(units, confidence), 'down');
	return `${count(units)} drives are too few to show it: all of them passing, they show ${shown}; ${count(needed)} could.`;
}
