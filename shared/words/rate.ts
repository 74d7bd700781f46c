import type { RateFigure } from '../study/result.ts';
import { count, percent, perHour, power, span } from './figures.ts';

/** A rate with its count and interval, or what is said where no event was seen. */
export function rateWords({ count: seen, rate, low, high, perHour: hourly, boundOn }: RateFigure): string {
	if (boundOn === 'units') return `none seen; at most ${percent(high)} of drives affected`;
	return `${count(seen)} seen: ${power(rate)} per sector, interval ${span(power(low), power(high))}; ${perHour(hourly)} an hour`;
}
