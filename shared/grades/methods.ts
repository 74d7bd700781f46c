import { looksWords } from '../study/looks.ts';
import type { Requirement } from '../study/unit-passes.ts';
import { levelWords } from '../words/level.ts';

/** Mixes that are tried on fresh drives at most, for each choice. */
export const mostMixTests = 3;

/** Confidence of each of those tests, so that all of them together keep the required one (Bonferroni). */
export const mixTestConfidence = ({ confidence }: Pick<Requirement, 'confidence'>): number =>
	1 - (1 - confidence) / mostMixTests;

/** Drives, at most, of a run that only shows a grade's nominal values or its tolerance alone and that no sentence speaks of. */
export const drivesApart = 200;

/** How the figures of a comparison of grades come about, in words. */
export function gradeMethods(
	requirement: Requirement,
	{ isMixed, kinds }: { readonly isMixed: boolean; readonly kinds: number },
): Readonly<Record<string, string>> {
	const confidence = levelWords(requirement.confidence);
	return {
		draws: "every run has the same seed and so the same uniforms; a grade's tolerance only scales them",
		'nominal values':
			"each resistor takes the nearest value of its grade's series, part by part; a pair chosen for its ratio may do better",
		'delay compensation':
			"each grade's own engineer tunes it: the mean delay of that grade's nominal drive, unless the scenario states it",
		judging: `tightest first, each grade by exact one-sided limits (Clopper–Pearson), up to the first that does not hold; in an order laid down beforehand ${confidence} holds for all grades of a choice together (fixed-sequence testing), for each choice by itself${kinds > 1 ? '; loose resistors and arrays are two such orders, each with half the chance of error' : ''}`,
		'numbers of drives': `a run ends after ${looksWords} drives where its decision is certain, whatever becomes of those to come, or none is asked for after a tighter grade that can no longer hold: which grade is enough is what the whole number would have said (where so many runs would not fit in memory, none ends early); limits and intervals of a run that ended early are those of so many drives fixed beforehand, its decision alone keeps the confidence; effects apart take ${drivesApart} drives at most, but for the grade whose shortfall is told`,
		'fresh drives': `a second test at ${confidence} with drives drawn anew; a grade is confirmed only where both say that it holds, so that the confidence above is kept`,
		'effects apart':
			'the purchasable values without tolerance, the tolerance on the values as designed, and both; effects need not add up',
		'crossings an hour':
			'expected early, late and missed crossings as computed from the noise, mean over drives and over the points by their share of the hours; the worst drives dominate it',
		...(isMixed && {
			'cheapest mix': `all mixes are searched with the same draws, which by itself keeps no confidence, for the best of many looks better than it is; what is shown rests on fresh drives alone, at most ${mostMixTests} mixes from the cheapest that held, each tested with a third of the chance of error, so that together they keep ${confidence}, for each choice by itself`,
		}),
	};
}
