import { inverseNormal } from '../maths/inverse-normal.ts';
import { checkCounts, checkLevel, checkWhole, type Interval } from './interval.ts';
import { wilsonInterval } from './wilson-interval.ts';

/**
 * Interval for the difference p₁ − p₂ of two independent shares: square-and-add
 * of their score intervals, p̂₁ − p̂₂ ∓ √[(p̂ − its limit)² + …]. Without trials
 * on either side it is [−1, 1]. Coverage of 95 % limits: 95 % where ten or more
 * pass and fail, up to 99 % for fewer (tests/statistics/coverage.json).
 *
 * Source: R. G. Newcombe, Statistics in Medicine 17 (1998) 873–890, method 10.
 */
export function shareDifference(x1: number, n1: number, x2: number, n2: number, level = 0.95): Interval {
	checkCounts(x1, n1);
	checkCounts(x2, n2);
	if (n1 === 0 || n2 === 0) return { low: -1, high: 1 };
	return squareAndAdd(x1 / n1, wilsonInterval(x1, n1, level), x2 / n2, wilsonInterval(x2, n2, level), 0);
}

/** The same units judged twice: how many pass with both choices, with one alone, with neither. */
export interface PairedCounts {
	readonly both: number;
	readonly onlyFirst: number;
	readonly onlySecond: number;
	readonly neither: number;
}

/**
 * Interval for the difference p₁ − p₂ of two shares of the same units:
 * square-and-add with the pairs' correlation φ, of which half a unit's worth is
 * taken off when it is positive. Without units it is [−1, 1].
 *
 * Source: R. G. Newcombe, Statistics in Medicine 17 (1998) 2635–2650, method 10.
 */
export function pairedShareDifference(counts: PairedCounts, level = 0.95): Interval {
	const { both, onlyFirst, onlySecond, neither } = counts;
	for (const [name, value] of Object.entries(counts)) checkWhole(value, name);
	checkLevel(level);
	const units = both + onlyFirst + onlySecond + neither;
	if (units === 0) return { low: -1, high: 1 };
	const first = both + onlyFirst;
	const second = both + onlySecond;
	const product = both * neither - onlyFirst * onlySecond;
	const corrected = product > 0 ? Math.max(product - units / 2, 0) : product;
	const scale = Math.sqrt(first * (units - first)) * Math.sqrt(second * (units - second));
	return squareAndAdd(
		first / units,
		wilsonInterval(first, units, level),
		second / units,
		wilsonInterval(second, units, level),
		scale === 0 ? 0 : corrected / scale,
	);
}

/** Interval p̂₁ − p̂₂ ∓ z·se of paired shares, se² = [b + c − (b − c)²/n]/n²: quick, but too short for few units. */
export function pairedShareDifferenceWald(counts: PairedCounts, level = 0.95): Interval {
	const { both, onlyFirst, onlySecond, neither } = counts;
	checkLevel(level);
	const units = both + onlyFirst + onlySecond + neither;
	if (units === 0) return { low: -1, high: 1 };
	const apart = onlyFirst - onlySecond;
	const standardError = Math.sqrt(onlyFirst + onlySecond - (apart * apart) / units) / units;
	const reach = inverseNormal((1 + level) / 2) * standardError;
	return { low: apart / units - reach, high: apart / units + reach };
}

function squareAndAdd(p1: number, limits1: Interval, p2: number, limits2: Interval, phi: number): Interval {
	const reach = (a: number, b: number): number => Math.sqrt(Math.max(0, a * a - 2 * phi * a * b + b * b));
	return {
		low: Math.max(-1, p1 - p2 - reach(p1 - limits1.low, limits2.high - p2)),
		high: Math.min(1, p1 - p2 + reach(limits1.high - p1, p2 - limits2.low)),
	};
}
