import { philox } from '../maths/philox.ts';
import { stream } from './stream.ts';

/** Rounds of the permutation: four make one that cannot be told from random (Luby and Rackoff 1988), six leave room. */
const rounds = 6;

/**
 * Puts one unit of a Latin hypercube into its strata: u ← (π_d(unit) + u)/units, with a random permutation π_d of the
 * units for each dimension d (M. D. McKay, R. J. Beckman and W. J. Conover, Technometrics 21 (1979) 239–245). Over all
 * units each dimension falls once into each of as many equal strata.
 *
 * @param uniforms the unit's own independent uniforms in [0, 1); written over
 * @throws RangeError where the unit is not one of `units`, from 1 to 2³⁰
 */
export function latinHypercube(seed: string, unit: number, units: number, uniforms: Float64Array): Float64Array {
	if (!(Number.isInteger(unit) && unit >= 0 && unit < units && units <= 2 ** 30)) {
		throw new RangeError(`unit ${unit} of a Latin hypercube of ${units}`);
	}
	const key = stream(seed, 'hypercube');
	const key0 = key.int32();
	const key1 = key.int32();
	for (let dimension = 0; dimension < uniforms.length; dimension++) {
		const stratum = permuted(unit, units, dimension, key0, key1);
		uniforms[dimension] = Math.min((stratum + (uniforms[dimension] as number)) / units, 1 - 2 ** -53);
	}
	return uniforms;
}

const words = new Uint32Array(4);

/**
 * Where `index` goes in a random permutation of 0 … length − 1, without the others: a Feistel network on the next
 * power of four, gone through again until the outcome is below `length` (at most four times on average).
 */
function permuted(index: number, length: number, dimension: number, key0: number, key1: number): number {
	let half = 1;
	while (1 << (2 * half) < length) half++;
	const mask = (1 << half) - 1;
	let at = index;
	do {
		let left = at >>> half;
		let right = at & mask;
		for (let round = 0; round < rounds; round++) {
			philox(words, right, round, dimension, 0, key0, key1);
			const next = (left ^ (words[0] as number)) & mask;
			left = right;
			right = next;
		}
		at = ((left << half) | right) >>> 0;
	} while (at >= length);
	return at;
}
