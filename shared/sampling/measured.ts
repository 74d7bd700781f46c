/** Sorted copies, one for each list of measured values that was ever drawn from. */
const sortedCopies = new WeakMap<readonly number[], Float64Array>();

/**
 * A measured deviation: the empirical distribution's inverse, a step function
 * over the values in rising order, each with the same share.
 */
export function measured(values: readonly number[], u: number): number {
	let sorted = sortedCopies.get(values);
	if (!sorted) {
		if (values.length === 0 || !values.every(Number.isFinite)) {
			throw new RangeError('measured values must be finite numbers, at least one');
		}
		sorted = Float64Array.from(values).sort();
		sortedCopies.set(values, sorted);
	}
	return sorted[Math.floor(u * sorted.length)] as number;
}
