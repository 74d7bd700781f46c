import { latinHypercube } from './latin-hypercube.ts';
import { scrambledSobol } from './sobol.ts';
import { stream } from './stream.ts';

/**
 * How the uniforms of a study's units are spread. Independent ones are what exact intervals and verdicts rest on; the
 * others fill every dimension evenly, and only whole replicates of them are independent of one another.
 */
export type Draws =
	| { readonly kind: 'independent' }
	/** Each dimension once in each of `units` equal strata. */
	| { readonly kind: 'latin'; readonly units: number }
	/** Scrambled Sobol' points: any 2^m units from the first on once in each of 2^m equal strata. */
	| { readonly kind: 'sobol' };

export const independent: Draws = { kind: 'independent' };

/**
 * One unit's uniforms in [0, 1): a function of the seed and the indices alone (and of the number of units in a Latin
 * hypercube). Dimension d is the d-th slot of a fixed list, so that what varies moves no other draw.
 */
export function unitUniforms(seed: string, unit: number, dimensions: number, draws: Draws): Float64Array {
	const uniforms = new Float64Array(dimensions);
	if (draws.kind === 'sobol') return scrambledSobol(seed, unit, uniforms);
	const next = stream(seed, 'parts', unit);
	for (let dimension = 0; dimension < dimensions; dimension++) uniforms[dimension] = next.double();
	return draws.kind === 'latin' ? latinHypercube(seed, unit, draws.units, uniforms) : uniforms;
}
