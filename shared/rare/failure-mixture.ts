import exp from '@stdlib/math-base-special-exp';
import { inverseNormal } from '../maths/inverse-normal.ts';
import { stream } from '../sampling/stream.ts';
import type { FailurePoint } from './failure-search.ts';

/** Standard normal densities around the origin and around failing points, drawn from in these shares (they add up to 1). Plain data. */
export interface FailureMixture {
	/** Share of ordinary draws, around the origin: no weight can exceed its inverse. */
	readonly ordinary: number;
	readonly centres: readonly { readonly at: Float64Array; readonly share: number }[];
}

/** Failing points that serve one purpose, and the part of the draws that they get: so a nearer group starves no other. */
export interface CentreGroup {
	readonly points: readonly Pick<FailurePoint, 'point' | 'distance'>[];
	readonly part: number;
}

/**
 * The mixture that importance sampling draws from: ordinary draws, so that what
 * the search overlooked still counts, and the groups' points, within a group the
 * likelier the more often (as the square root of their density, so that none is
 * starved). A group without points leaves its part to the others.
 */
export function failureMixture(groups: readonly CentreGroup[], ordinary = 0.15): FailureMixture {
	const filled = groups
		.map(({ points, part }) => ({ points: points.filter(({ distance }) => distance > 0), part }))
		.filter(({ points }) => points.length > 0);
	if (filled.length === 0) return { ordinary: 1, centres: [] };
	const whole = filled.reduce((sum, { part }) => sum + part, 0);
	const centres = filled.flatMap(({ points, part }) => {
		const nearest = Math.min(...points.map(({ distance }) => distance));
		const heights = points.map(({ distance }) => exp((nearest * nearest - distance * distance) / 4));
		const total = heights.reduce((sum, height) => sum + height, 0);
		return points.map(({ point }, i) => ({
			at: point,
			share: ((((1 - ordinary) * part) / whole) * (heights[i] as number)) / total,
		}));
	});
	return { ordinary, centres };
}

/** Draw `index` of a mixture and its weight; a function of the seed and the index alone. */
export function drawFromMixture(
	{ ordinary, centres }: FailureMixture,
	dimension: number,
	seed: string,
	index: number,
): { readonly point: Float64Array; readonly weight: number } {
	const next = stream(seed, 'rare', index);
	const centre = chosenCentre({ ordinary, centres }, next.double());
	const point = Float64Array.from({ length: dimension }, () => inverseNormal(Math.max(next.double(), 2 ** -54)));
	if (centre) for (let k = 0; k < dimension; k++) point[k] = (point[k] as number) + (centre[k] as number);
	return { point, weight: mixtureWeight({ ordinary, centres }, point) };
}

/** The centre that a uniform picks; undefined for an ordinary draw. */
function chosenCentre({ ordinary, centres }: FailureMixture, u: number): Float64Array | undefined {
	let end = ordinary;
	if (u < end) return undefined;
	for (const { at, share } of centres) {
		end += share;
		if (u < end) return at;
	}
	return centres.at(-1)?.at;
}

/**
 * Standard normal density over the mixture's: 1/[s₀ + Σ s_j exp(c_j·z − |c_j|²/2)].
 * Weights of a failing region found by the mixture are far below 1.
 */
export function mixtureWeight({ ordinary, centres }: FailureMixture, point: Float64Array): number {
	let density = ordinary;
	for (const { at, share } of centres) {
		let exponent = 0;
		for (let k = 0; k < point.length; k++) {
			exponent += (at[k] as number) * ((point[k] as number) - (at[k] as number) / 2);
		}
		density += share * exp(exponent);
	}
	return 1 / density;
}
