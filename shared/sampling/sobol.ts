import { directionRows } from './direction-rows.ts';
import { stream } from './stream.ts';

/** Binary digits of a point's coordinate before the shift's own. */
const digits = 32;

/** Dimensions there are direction numbers for. */
export const sobolDimensions = directionRows.length + 1;

/**
 * The direction numbers of one dimension, first digit highest: point i is the exclusive or of those that i's binary
 * digits name, lowest first. v_k = m_k 2^(32−k), with the recurrence of P. Bratley and B. L. Fox, ACM Trans. Math.
 * Softw. 14 (1988) 88–100, from the numbers of Joe and Kuo (direction-rows.ts).
 *
 * @param dimension from 0
 * @throws RangeError where there are none
 */
export function directionNumbers(dimension: number): Uint32Array {
	const numbers = new Uint32Array(digits);
	if (dimension === 0) return numbers.map((_, k) => 1 << (digits - 1 - k));
	const row = directionRows[dimension - 1];
	if (row === undefined) throw new RangeError(`dimension ${dimension} of a Sobol’ sequence of ${sobolDimensions}`);
	const [inner = 0, ...initial] = row.split(' ').map(Number);
	const degree = initial.length;
	for (let k = 0; k < digits; k++) {
		if (k < degree) {
			numbers[k] = (initial[k] as number) << (digits - 1 - k);
			continue;
		}
		const before = numbers[k - degree] as number;
		let value = before ^ (before >>> degree);
		for (let j = 1; j < degree; j++) {
			if (((inner >>> (degree - 1 - j)) & 1) === 1) value ^= numbers[k - j] as number;
		}
		numbers[k] = value;
	}
	return numbers;
}

interface ScrambledDimension {
	readonly numbers: Uint32Array;
	readonly shift: number;
	/** What follows the 32 digits, 0 … 1 of the last one: with it each coordinate is uniform without a bias. */
	readonly rest: number;
}

/**
 * Random linear scrambling with a digital shift (J. Matoušek, J. Complexity 14 (1998) 527–556): the digits go through a
 * random lower triangular matrix with ones on its diagonal, then a random digit is added to each. Strata and nets
 * stay, every point is uniform, and the variance is that of Owen's nested scrambling.
 */
function scrambledDimension(seed: string, dimension: number): ScrambledDimension {
	const random = stream(seed, 'scramble', dimension);
	const matrix = Array.from({ length: digits }, (_, digit) => {
		const own = 1 << (digits - 1 - digit);
		const earlier = -2 * own; // all digits before its own
		return (random.int32() & earlier) | own;
	});
	const numbers = directionNumbers(dimension).map((number) => {
		let scrambled = 0;
		for (const row of matrix) scrambled = (scrambled << 1) | parity(row & number);
		return scrambled >>> 0;
	});
	return { numbers, shift: random.int32(), rest: random.double() };
}

/** The last seed's scrambles: unit after unit asks for the same. */
let kept: { readonly seed: string; readonly dimensions: ScrambledDimension[] } = { seed: '', dimensions: [] };

/**
 * Point `index` of the scrambled sequence that a seed makes, one dimension for each place of `out`. Dimension d hangs
 * on the seed, the index and d alone.
 *
 * @param index from 0, below 2³²
 * @returns `out`, numbers in [0, 1)
 */
export function scrambledSobol(seed: string, index: number, out: Float64Array): Float64Array {
	if (kept.seed !== seed) kept = { seed, dimensions: [] };
	for (let dimension = 0; dimension < out.length; dimension++) {
		kept.dimensions[dimension] ??= scrambledDimension(seed, dimension);
		const { numbers, shift, rest } = kept.dimensions[dimension] as ScrambledDimension;
		let point = shift;
		for (let left = index, k = 0; left > 0; left = Math.floor(left / 2), k++) {
			if (left % 2 === 1) point ^= numbers[k] as number;
		}
		out[dimension] = Math.min(((point >>> 0) + rest) * 2 ** -32, 1 - 2 ** -53);
	}
	return out;
}

function parity(bits: number): number {
	let left = bits;
	left ^= left >>> 16;
	left ^= left >>> 8;
	left ^= left >>> 4;
	return (0x6996 >>> (left & 15)) & 1;
}
