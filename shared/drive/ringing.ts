import cosine from '@stdlib/math-base-special-cos';
import exp from '@stdlib/math-base-special-exp';
import sine from '@stdlib/math-base-special-sin';
import { realZero } from '../maths/real-zero.ts';
import { radian } from './circuit.ts';
import { highPhase, lowPhase, openPhase } from './commutation-table.ts';
import { type ConductionMode, highDiode, lowDiode } from './conduction-mode.ts';
import type { Drive } from './drive.ts';
import type { NoiseSource } from './noise.ts';

/** Ringing older than this many of its decays (e⁻⁴⁰ = 4·10⁻¹⁸ of its amplitude) is nothing. */
export const ringDecays = 40;

/**
 * Ringing of the chopped terminal after each PWM edge, as the model states it:
 * r(a) = ±A e^{−a/τ_r} cos(2πf_r a + ψ), + after a turn-on, − after a turn-off.
 * `value` is the complex r whose real part rings; networks scale and turn it.
 */
export class Ringing {
	amplitude = realZero;
	/** σ = −1/τ_r + jω_r of e^{σa}. */
	sigmaRe = realZero;
	sigmaIm = realZero;
	/** Real and imaginary part of the last `evaluate`. */
	re = realZero;
	im = realZero;
	private decay = realZero;
	private coupling = realZero;
	private phase = realZero;
	private spread = realZero;
	private noise!: NoiseSource;
	private seenPeriod = -1;
	private seenEdge = -1;
	private edgePhase = realZero;
	private highSign = 0;
	private lowSign = 0;

	load(drive: Drive, noise: NoiseSource): void {
		const { noise: n, inverter } = drive;
		this.amplitude = n.ringAmplitude;
		this.decay = n.ringDecay;
		this.sigmaRe = -1 / n.ringDecay;
		this.sigmaIm = 2 * Math.PI * n.ringFrequency;
		this.coupling = n.ringCoupling;
		this.phase = 2 * Math.PI * n.ringPhase;
		this.spread = n.ringPhaseSpread * radian;
		this.noise = noise;
		this.seenPeriod = this.seenEdge = -1;
		// high-side and complementary: the + phase by r; low-side: the − phase by −r; both: r and −r
		this.highSign = inverter.chopping === 'low-side' ? 0 : 1;
		this.lowSign = inverter.chopping === 'low-side' || inverter.chopping === 'both' ? -1 : 0;
	}

	/** Complex ringing `age` seconds after the edge; false where nothing is left of it. */
	evaluate(age: number, period: number, edge: number): boolean {
		if (!(age < ringDecays * this.decay)) return false;
		if (period !== this.seenPeriod || edge !== this.seenEdge) {
			this.seenPeriod = period;
			this.seenEdge = edge;
			this.edgePhase = this.phase + this.spread * this.noise.ringSpread(period, edge === 0 ? 0 : 1);
		}
		const size = (edge === 0 ? this.amplitude : -this.amplitude) * exp(-age / this.decay);
		const angle = this.sigmaIm * age + this.edgePhase;
		this.re = size * cosine(angle);
		this.im = size * sine(angle);
		return true;
	}

	/**
	 * How much of r the weighted sum of the terminals carries. The terminals
	 * that were chopped at the edge ring; the open one follows the others' sum
	 * by κ, unless its own diode conducts.
	 */
	weight(weights: Float64Array, kind: number, ringKind: number, mode: ConductionMode): number {
		const open = openPhase[kind] as number;
		const high = highPhase[ringKind] as number;
		const low = lowPhase[ringKind] as number;
		let sum = 0;
		let total = 0;
		if (high !== open) {
			sum += this.highSign;
			total += this.highSign * (weights[high] as number);
		}
		if (low !== open) {
			sum += this.lowSign;
			total += this.lowSign * (weights[low] as number);
		}
		const tie = mode.ties[open];
		if (tie !== highDiode && tie !== lowDiode) total += this.coupling * sum * (weights[open] as number);
		return total;
	}
}
