import { decayInPlace } from '../maths/decay.ts';
import { realZero } from '../maths/real-zero.ts';
import { turnInPlace } from '../maths/turn.ts';
import { radian } from './circuit.ts';
import { highPhase, lowPhase, openPhase } from './commutation-table.ts';
import { type ConductionMode, isDiode, type Tie } from './conduction-mode.ts';
import type { Drive } from './drive.ts';
import type { NoiseSource } from './noise.ts';

/** Ringing older than this many of its decays (e⁻⁴⁰ = 4·10⁻¹⁸ of its amplitude) is nothing. */
export const ringDecays = 40;

/** Evaluations that are remembered: a node's look-back over a few segments. */
const memory = 8;

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
	/** Seconds since the edge, for `evaluate`: as its argument it would be put on the heap. */
	age = realZero;
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
	/** The last few ages asked for, of which edge (2·period + edge), and what came out: both nodes of a reading ask for the same. */
	private readonly ages = new Float64Array(memory);
	private readonly edges = new Int32Array(memory);
	private readonly res = new Float64Array(memory);
	private readonly ims = new Float64Array(memory);
	private newest = 0;
	private readonly cells = new Float64Array(3);
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
		this.edges.fill(-1);
		// high-side and complementary: the + phase by r; low-side: the − phase by −r; both: r and −r
		this.highSign = inverter.chopping === 'low-side' ? 0 : 1;
		this.lowSign = inverter.chopping === 'low-side' || inverter.chopping === 'both' ? -1 : 0;
	}

	/** Complex ringing `this.age` after the edge; false where nothing is left of it. */
	evaluate(period: number, edge: number): boolean {
		const { age, ages, edges } = this;
		if (!(age < ringDecays * this.decay)) return false;
		const key = 2 * period + edge;
		for (let at = 0; at < memory; at++) {
			if (ages[at] !== age || edges[at] !== key) continue;
			this.re = this.res[at] as number;
			this.im = this.ims[at] as number;
			return true;
		}
		if (period !== this.seenPeriod || edge !== this.seenEdge) {
			this.seenPeriod = period;
			this.seenEdge = edge;
			this.edgePhase = this.phase + this.spread * this.noise.ringSpread(period, edge === 0 ? 0 : 1);
		}
		const { cells } = this;
		cells[0] = age / this.decay;
		decayInPlace(cells, 0);
		cells[1] = this.sigmaIm * age + this.edgePhase;
		turnInPlace(cells, 1);
		const size = (edge === 0 ? this.amplitude : -this.amplitude) * (cells[0] as number);
		this.re = size * (cells[1] as number);
		this.im = size * (cells[2] as number);
		const at = (this.newest + 1) % memory;
		this.newest = at;
		ages[at] = age;
		edges[at] = key;
		this.res[at] = this.re;
		this.ims[at] = this.im;
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
		if (!isDiode(mode.ties[open] as Tie)) total += this.coupling * sum * (weights[open] as number);
		return total;
	}
}
