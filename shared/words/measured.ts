import { count, percent } from './figures.ts';

/** Fewer values than this leave more than 6 % of parts beyond the measured extremes: 2/(n + 1), whatever the distribution. */
const few = 30;

/** "1 value", "40 values". */
export const measuredValues = (n: number): string => `${count(n)} ${n === 1 ? 'value' : 'values'}`;

/** What a distribution of so few measured values leaves open; '' where there are enough. */
export const fewMeasured = (n: number): string =>
	n < few
		? `only ${count(n)} measured ${n === 1 ? 'value' : 'values'}: about ${percent(2 / (n + 1))} of further parts lie beyond the measured extremes, and none is drawn there.`
		: '';
