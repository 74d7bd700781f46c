import { realZero } from '../maths/real-zero.ts';
import { type Circuit, radian } from './circuit.ts';
import type { Drive } from './drive.ts';
import type { Segment } from './segment.ts';

/**
 * Trapezoidal back-EMF of the three phases against time, as straight pieces:
 * ramps of width 180° − F through zero every 180°, flat in between. On the
 * piece of phase k: e_k(t) = level_k + slope_k (t − zero_k).
 *
 * Time runs from θ = 30° at t = 0, so phase k rises through zero at
 * t = (120°·k + δ_k − 30°)/ω.
 */
export class BackEmf {
	/** V, V/s and s, of the pieces that hold now. */
	readonly level = new Float64Array(3);
	readonly slope = new Float64Array(3);
	readonly zero = new Float64Array(3);
	/** When each phase's piece ends, s; and the earliest of the three. */
	private readonly ends = new Float64Array(3);
	nextCorner = realZero;
	/** Counts the changes of pieces. */
	pieces = 0;

	/** Ramp crossings counted in half turns from the rising one at `first`. */
	private readonly half = new Int32Array(3);
	private readonly onRamp = new Uint8Array(3);
	private readonly first = new Float64Array(3);
	private readonly peak = new Float64Array(3);
	private halfTurn = realZero;
	private halfRamp = realZero;

	/** Puts the three phases on their pieces at t = 0. */
	start(circuit: Circuit, drive: Drive): void {
		const { motor } = drive;
		if (motor.sinusoidal) {
			for (const cells of [this.level, this.slope, this.zero, this.half, this.onRamp, this.first]) cells.fill(0);
			this.nextCorner = Infinity;
			return;
		}
		const { omega } = circuit;
		this.halfTurn = Math.PI / omega;
		this.halfRamp = ((90 - motor.flatTop / 2) * radian) / omega;
		for (let k = 0; k < 3; k++) {
			this.peak[k] = circuit.emfPeak[k] as number;
			this.first[k] = ((120 * k + (motor.placement[k] as number) - 30) * radian) / omega;
			// the last ramp that began at or before t = 0
			const half = Math.floor((this.halfRamp - (this.first[k] as number)) / this.halfTurn);
			this.half[k] = half;
			this.enterRamp(k);
			if ((this.ends[k] as number) <= 0) this.enterFlat(k);
		}
		this.findCorner();
	}

	/** Moves every phase whose piece has ended by `time` on to its next piece. */
	pass(time: number): void {
		for (let k = 0; k < 3; k++) {
			if ((this.ends[k] as number) > time) continue;
			if (this.onRamp[k] === 1) {
				this.enterFlat(k);
			} else {
				this.half[k] = (this.half[k] as number) + 1;
				this.enterRamp(k);
			}
		}
		this.findCorner();
	}

	/** Writes into a segment what holds from its start; all 0 of a sinusoidal back-EMF, which has no pieces. */
	describe(segment: Segment): void {
		const { level, slope, zero } = this;
		const { start } = segment;
		segment.slopeA = slope[0] as number;
		segment.slopeB = slope[1] as number;
		segment.slopeC = slope[2] as number;
		segment.emfA = (level[0] as number) + segment.slopeA * (start - (zero[0] as number));
		segment.emfB = (level[1] as number) + segment.slopeB * (start - (zero[1] as number));
		segment.emfC = (level[2] as number) + segment.slopeC * (start - (zero[2] as number));
	}

	/** Back-EMF of phase k when that of phase `other` is at its `zero`, if the pieces of both held then, V: the same in every turn to the last bit. */
	levelAtZeroOf(k: number, other: number): number {
		const { first, half } = this;
		const since =
			(first[other] as number) - (first[k] as number) + ((half[other] as number) - (half[k] as number)) * this.halfTurn;
		return (this.level[k] as number) + (this.slope[k] as number) * since;
	}

	/** Which of its four pieces each phase is on. */
	get piecesCode(): number {
		const { onRamp, half } = this;
		let code = 0;
		for (let k = 0; k < 3; k++) code = 4 * code + 2 * (onRamp[k] as number) + ((half[k] as number) & 1);
		return code;
	}

	copyFrom(other: BackEmf): void {
		this.level.set(other.level);
		this.slope.set(other.slope);
		this.zero.set(other.zero);
		this.ends.set(other.ends);
		this.half.set(other.half);
		this.onRamp.set(other.onRamp);
		this.first.set(other.first);
		this.peak.set(other.peak);
		this.halfTurn = other.halfTurn;
		this.halfRamp = other.halfRamp;
		this.nextCorner = other.nextCorner;
		this.pieces = other.pieces;
	}

	private enterRamp(k: number): void {
		const crossing = (this.first[k] as number) + (this.half[k] as number) * this.halfTurn;
		const sign = (this.half[k] as number) % 2 === 0 ? 1 : -1;
		this.onRamp[k] = 1;
		this.level[k] = 0;
		this.slope[k] = (sign * (this.peak[k] as number)) / this.halfRamp;
		this.zero[k] = crossing;
		this.ends[k] = crossing + this.halfRamp;
	}

	private enterFlat(k: number): void {
		const crossing = (this.first[k] as number) + (this.half[k] as number) * this.halfTurn;
		const sign = (this.half[k] as number) % 2 === 0 ? 1 : -1;
		this.onRamp[k] = 0;
		this.level[k] = sign * (this.peak[k] as number);
		this.slope[k] = 0;
		this.zero[k] = crossing;
		this.ends[k] = crossing + this.halfTurn - this.halfRamp;
	}

	private findCorner(): void {
		this.pieces++;
		this.nextCorner = Math.min(this.ends[0] as number, this.ends[1] as number, this.ends[2] as number);
	}
}
