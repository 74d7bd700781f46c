import { count } from '../words/figures.ts';

/** Of drawn drives that have no figure. */
export const drawnWithoutWords = (units: number): string =>
	`${count(units)} drawn ${units === 1 ? 'drive' : 'drives'} lost lock or found no crossing in some sector kind and ${units === 1 ? 'is' : 'are'} left out: the spread is worse than it shows.`;
