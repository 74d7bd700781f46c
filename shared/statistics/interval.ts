/** Limits of an interval, low ≤ high; infinite where the data bound it on one side only. */
export interface Interval {
	readonly low: number;
	readonly high: number;
}

/** Throws unless `value` is a confidence level or a probability strictly between 0 and 1. */
export function checkLevel(value: number, name = 'confidence level'): void {
	if (!(value > 0 && value < 1)) throw new RangeError(`${name} ${value} must lie between 0 and 1`);
}

/** Throws unless `successes` of `trials` are whole numbers with 0 ≤ successes ≤ trials. */
export function checkCounts(successes: number, trials: number): void {
	if (!(Number.isSafeInteger(successes) && Number.isSafeInteger(trials) && successes >= 0 && successes <= trials)) {
		throw new RangeError(`${successes} of ${trials} is not a count of trials`);
	}
}

/** Throws unless `value` is a whole number of at least `least`. */
export function checkWhole(value: number, name: string, least = 0): void {
	if (!(Number.isSafeInteger(value) && value >= least)) {
		throw new RangeError(`${name} ${value} must be a whole number of at least ${least}`);
	}
}
