export interface EffectiveNumber {
	/** (Σp)²/Σp²: as many equal values would make an average as steady; n where all are equal, 1 where one is all, 0 without any above 0. */
	readonly effective: number;
	/** The largest value's share of the sum; NaN where all are 0. */
	readonly largestShare: number;
	/** Where it stands; −1 where all are 0. */
	readonly largest: number;
}

/** Below this effective number an average hangs on so few values that no plain interval is given. */
export const leastEffective = 100;

/**
 * How many values an average of values of very different size really rests on.
 *
 * Source: L. Kish, Survey Sampling (1965), 11.7 (effective sample size of unequal weights; page not seen).
 *
 * @param values none below 0; as small as they may be, their squares do not underflow
 */
export function effectiveNumber(values: ArrayLike<number>): EffectiveNumber {
	let largest = -1;
	let most = 0;
	for (let i = 0; i < values.length; i++) {
		const value = values[i] as number;
		if (!(value >= 0)) throw new RangeError(`value ${i} is ${value}`);
		if (value > most) {
			most = value;
			largest = i;
		}
	}
	if (most === 0) return { effective: 0, largestShare: Number.NaN, largest };
	let sum = 0;
	let squares = 0;
	for (let i = 0; i < values.length; i++) {
		const part = (values[i] as number) / most;
		sum += part;
		squares += part * part;
	}
	return { effective: (sum * sum) / squares, largestShare: 1 / sum, largest };
}
