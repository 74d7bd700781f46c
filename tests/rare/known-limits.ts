import exp from '@stdlib/math-base-special-exp';
import ln from '@stdlib/math-base-special-ln';
import { upperTail } from '../../shared/drive/sensing/acceptance-chain.ts';
import type { LimitValue } from '../../shared/rare/failure-search.ts';

/** A limit state whose failing probability is known in closed form. */
export interface KnownLimit {
	readonly name: string;
	readonly dimension: number;
	readonly probability: number;
	readonly value: (point: Float64Array) => LimitValue;
}

/**
 * A margin with a heavy tail: the product of Pareto-distributed factors
 * X_i = (1 − u_i)^(−ρ_i), each from a base uniform u = Φ(z). It fails above
 * e^s. ln X_i is exponential with mean ρ_i, so that with distinct ρ
 *
 *     P(Σ ln X_i > s) = Σ_i e^(−s/ρ_i) Π_{j≠i} ρ_i/(ρ_i − ρ_j)
 *
 * (hypoexponential distribution, textbook). `others` coordinates have no effect.
 */
export function paretoProduct(means: readonly number[], probability: number, others = 0): KnownLimit {
	const tail = (s: number): number =>
		means.reduce((sum, one, i) => {
			const factor = means.reduce((product, other, j) => (j === i ? product : (product * one) / (one - other)), 1);
			return sum + factor * exp(-s / one);
		}, 0);
	const limit = level(tail, probability);
	return {
		name: `product of ${means.length} Pareto factors, ${probability}`,
		dimension: means.length + others,
		probability,
		value(point) {
			let logarithm = 0;
			// 1 − u = Φ(−z), without loss of digits
			for (const [i, mean] of means.entries()) logarithm -= mean * ln(upperTail(point[i] as number));
			return { fails: logarithm > limit, figures: [exp(logarithm)] };
		},
	};
}

/** Equal factors: every way of sharing out the excess is about as likely, P = e^(−s) Σ_{k<n} s^k/k! (Erlang). */
export function equalParetoProduct(factors: number, probability: number): KnownLimit {
	const tail = (s: number): number => {
		let term = 1;
		let sum = 1;
		for (let k = 1; k < factors; k++) {
			term *= s / k;
			sum += term;
		}
		return sum * exp(-s);
	};
	const limit = level(tail, probability);
	return {
		name: `product of ${factors} equal Pareto factors, ${probability}`,
		dimension: factors,
		probability,
		value(point) {
			let logarithm = 0;
			for (let i = 0; i < factors; i++) logarithm -= ln(upperTail(point[i] as number));
			return { fails: logarithm > limit, figures: [exp(logarithm)] };
		},
	};
}

/** Largest of several independent normal figures, either way: 2n equally likely ways to fail, P = 1 − (1 − 2Φ(−β))ⁿ. */
export function eitherWay(figures: number, beta: number): KnownLimit {
	const one = 2 * upperTail(beta);
	let probability = 0;
	// 1 − (1 − p)ⁿ = Σ (1 − p)^k p, without cancellation
	for (let k = 0; k < figures; k++) probability += one * (1 - one) ** k;
	return {
		name: `${figures} figures beyond ±${beta} σ`,
		dimension: figures,
		probability,
		value: (point) => ({ fails: point.some((z) => Math.abs(z) > beta), figures: point }),
	};
}

/** The s with tail(s) = probability, by bisection of a falling tail. */
function level(tail: (s: number) => number, probability: number): number {
	let [low, high] = [0, 200];
	for (let i = 0; i < 200; i++) {
		const middle = (low + high) / 2;
		if (tail(middle) > probability) low = middle;
		else high = middle;
	}
	return (low + high) / 2;
}
