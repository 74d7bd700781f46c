import type { Grade } from './grade.ts';
import { type GradeProblem, readGrades } from './read-grades.ts';
import { readPrices } from './read-prices.ts';

/** What is asked about where nothing else is. */
export const usualGrades = '5 %, 2 %, 1 %, 0.5 %, 0.1 %';

export interface OfferProblem extends GradeProblem {
	readonly of: 'grades' | 'prices';
}

/** Grades with their prices from the two lists as written, or everything that is wrong with either. @param pricesText null where none are given */
export function readOffer(
	gradesText: string,
	pricesText: string | null,
): { readonly grades: readonly Grade[] } | { readonly problems: readonly OfferProblem[] } {
	const reading = readGrades(gradesText);
	// counted as written: a grade that cannot be read has its price all the same
	const prices = pricesText === null ? null : readPrices(pricesText, gradesText.split(',').length);
	const of = (list: OfferProblem['of']) => (problem: GradeProblem) => ({ ...problem, of: list });
	const problems = [
		...('problems' in reading ? reading.problems.map(of('grades')) : []),
		...(prices !== null && 'problems' in prices ? prices.problems.map(of('prices')) : []),
	];
	if (!('grades' in reading) || problems.length > 0) return { problems };
	const list = prices !== null && 'prices' in prices ? prices.prices : [];
	return { grades: reading.grades.map((grade, i) => ({ ...grade, price: list[i] ?? null })) };
}
