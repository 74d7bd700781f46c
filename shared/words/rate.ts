import type { RateFigure } from '../study/result.ts';
import { count, percent, perHour, power, span } from './figures.ts';

/** A rate with its count and interval, or what is said where no event was seen. */
export function rateWords({ count: seen, rate, low, high, perHour: hourly, boundOn }: RateFigure): string {
	if (boundOn === 'units') return `none seen; at most ${percent(high, 'up')} of drives affected`;
	return `${count(seen)} seen: ${power(rate)} per sector, interval ${span(power(low), power(high))}; ${perHour(hourly)} an hour`;
}

/** Where no event was seen: the bound on the share of drives that would show any, rounded so that it claims no more. */
export const affectedBound = ({ high }: Pick<RateFigure, 'high'>): string => `≤ ${percent(high, 'up')} of drives`;
