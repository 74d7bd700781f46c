import { realZero } from '../../maths/real-zero.ts';
import { forcedBend, modalBend } from '../bends.ts';
import { highDiode, isDiode, lowDiode, open, type Tie } from '../conduction-mode.ts';
import type { SegmentInHand } from './segment-in-hand.ts';

/** A diode event is placed to within this, s: far inside the 1 ns that the model asks for. */
export const eventTolerance = 1e-13;

/**
 * A Newton step shorter than this (s) is the last: the error it leaves is about
 * step²/(2τ), with τ the time in which the margin bends, here below 10⁻¹² s for
 * any τ above 0.05 µs.
 */
const lastStep = 3e-10;

/** A margin that dips below zero by less than this (V or A) and comes back is not an event. */
const shallow = 1e-9;

/**
 * A margin this little below zero (V or A) at a segment's end is rounding: a
 * diode that started an instant ago may seem to reverse at a corner of the
 * back-EMF that falls on the same instant. If it is real, the next segment shows it.
 */
const rounding = 1e-12;

/**
 * Finds the first diode that stops or starts within the segment in hand: where
 * a margin comes to zero that is linear in modal currents, back-EMFs and bus
 * ripple. Newton's method inside a bracket.
 */
export class DiodeEvents {
	/** Of the event found: the phase, and the tie it goes over to. */
	phase = -1;
	tie: Tie = open;

	private readonly hand: SegmentInHand;
	private found = false;
	/** The margin looked at: constant and weights. */
	private constant = realZero;
	private ripple = realZero;
	private emfA = realZero;
	private emfB = realZero;
	private emfC = realZero;
	private modal0 = realZero;
	private modal1 = realZero;
	/** Its value and slope at the point that the segment was last brought to. */
	private value = realZero;
	private slope = realZero;

	constructor(hand: SegmentInHand) {
		this.hand = hand;
	}

	/** Shortens the segment in hand to its first event; whether it has one. */
	find(ties: readonly Tie[]): boolean {
		const { hand } = this;
		const { mode, circuit } = hand;
		this.found = false;
		for (let k = 0; k < 3; k++) {
			const tie = ties[k] as Tie;
			if (isDiode(tie)) {
				this.watchCurrent(k, tie === lowDiode ? 1 : -1);
				this.follow(k, open, 0);
			}
		}
		if (mode.conducting === 0) {
			this.followPairs();
			return this.found;
		}
		if (mode.conducting === 3) return this.found;
		// of an open terminal the end is looked at first; well inside the rails there, nothing dips out in between (bends.ts)
		const bend = forcedBend(circuit, mode, hand.length) + modalBend(mode, hand.length) * Math.abs(hand.segment.d0);
		const near = 1e-3 * circuit.voltage + bend;
		const ripple = circuit.rippleAmplitude * hand.zImEnd;
		const eA = hand.emfAtEnd(0);
		const eB = hand.emfAtEnd(1);
		const eC = hand.emfAtEnd(2);
		const neutral =
			mode.neutral +
			mode.neutralRipple * ripple +
			mode.neutralEmfA * eA +
			mode.neutralEmfB * eB +
			mode.neutralEmfC * eC +
			mode.neutral0 * hand.y0End;
		const top = circuit.voltage + ripple + circuit.diodeDrop;
		const bottom = mode.lowRail0 * hand.y0End - circuit.diodeDrop;
		for (let k = 0; k < 3; k++) {
			if (ties[k] !== open) continue;
			const v = neutral + (k === 0 ? eA : k === 1 ? eB : eC);
			if (top - v < near) {
				this.watchTerminal(k, highDiode);
				this.follow(k, highDiode, near);
			}
			if (v - bottom < near) {
				this.watchTerminal(k, lowDiode);
				this.follow(k, lowDiode, near);
			}
		}
		return this.found;
	}

	/** Margin: the diode current of phase k, sign·i_k. */
	private watchCurrent(k: number, sign: number): void {
		const { mode } = this.hand;
		this.constant = this.ripple = this.emfA = this.emfB = this.emfC = 0;
		this.modal0 = sign * mode.u(k, 0);
		this.modal1 = sign * mode.u(k, 1);
	}

	/** Margin: how far open terminal k is inside [v_low − V_F, v_bus + V_F], at one end. */
	private watchTerminal(k: number, diode: Tie): void {
		const { mode, circuit } = this.hand;
		const sign = diode === highDiode ? -1 : 1;
		this.constant = sign * mode.neutral + circuit.diodeDrop;
		this.ripple = sign * mode.neutralRipple;
		this.emfA = sign * (mode.neutralEmfA + (k === 0 ? 1 : 0));
		this.emfB = sign * (mode.neutralEmfB + (k === 1 ? 1 : 0));
		this.emfC = sign * (mode.neutralEmfC + (k === 2 ? 1 : 0));
		this.modal0 = sign * mode.neutral0;
		this.modal1 = sign * mode.neutral1;
		if (diode === highDiode) {
			this.constant += circuit.voltage;
			this.ripple += 1;
		} else {
			this.modal0 -= mode.lowRail0;
			this.modal1 -= mode.lowRail1;
		}
	}

	/** With nothing tied, any two phases may start to conduct together. */
	private followPairs(): void {
		for (let x = 0; x < 3; x++) {
			for (let y = 0; y < 3; y++) {
				if (x === y) continue;
				this.watchPair(x, y);
				// the largest EMF's phase conducts to the high rail; the other follows when the event is passed
				this.follow(x, highDiode, 0);
			}
		}
	}

	/** Margin of two phases that would conduct together: v_bus + 2V_F − (e_x − e_y). */
	private watchPair(x: number, y: number): void {
		const { circuit } = this.hand;
		this.constant = circuit.voltage + 2 * circuit.diodeDrop;
		this.ripple = 1;
		this.emfA = (y === 0 ? 1 : 0) - (x === 0 ? 1 : 0);
		this.emfB = (y === 1 ? 1 : 0) - (x === 1 ? 1 : 0);
		this.emfC = (y === 2 ? 1 : 0) - (x === 2 ? 1 : 0);
		this.modal0 = this.modal1 = 0;
	}

	/**
	 * If the margin reaches zero within the segment in hand, ends the segment
	 * there with phase `k` going over to `tie`. `near`: below this at both ends,
	 * a dip in between is looked for (0: always).
	 */
	private follow(k: number, tie: Tie, near: number): void {
		const { hand } = this;
		hand.goToEnd();
		this.evaluate();
		const atEnd = this.value;
		let hi = hand.length;
		if (atEnd >= -rounding) {
			if (near > 0 && atEnd > near) return;
			if (this.slope <= 0) return;
			hand.goToStart();
			this.evaluate();
			// from nearly 0 it has just started, and its slope there is rounding
			if (this.slope >= 0 || this.value < shallow || (near > 0 && this.value > near)) return;
			// slope − at the start, + at the end: the least value lies inside
			let lo = 0;
			for (let i = 0; i < 60 && hi - lo > eventTolerance; i++) {
				const mid = 0.5 * (lo + hi);
				hand.goTo(mid);
				this.evaluate();
				if (this.value < -shallow) {
					hi = mid;
					break;
				}
				if (this.slope < 0) lo = mid;
				else hi = mid;
			}
			if (this.value >= -shallow) return;
		}
		this.found = true;
		this.phase = k;
		this.tie = tie;
		hand.length = this.firstZero(hi);
		hand.workOutEnd();
	}

	/** First zero of the margin in [0, hi], s, where it is negative at `hi` (just evaluated); 0 if it is never positive. */
	private firstZero(hi: number): number {
		const { hand } = this;
		const valueHi = this.value;
		const slopeHi = this.slope;
		hand.goToStart();
		this.evaluate();
		let lo = 0;
		let s: number;
		if (this.value <= 0 || this.slope > 0) {
			// just started (zero at 0 but for rounding, growing) or already past: look for a positive place close by
			let probe = hi;
			do {
				probe /= 2;
				if (probe < eventTolerance) return 0;
				hand.goTo(probe);
				this.evaluate();
			} while (this.value <= 0);
			lo = probe;
			s = this.slope < 0 ? lo - this.value / this.slope : 0.5 * (lo + hi);
		} else {
			// time as a cubic in the margin, from both ends' values and slopes
			s = inverseCubic(hi, this.value, this.slope, valueHi, slopeHi);
		}
		// Newton's step where it stays in the bracket, else halving
		for (let i = 0; i < 100; i++) {
			if (!(s > lo && s < hi)) s = 0.5 * (lo + hi);
			hand.goTo(s);
			this.evaluate();
			if (this.value > 0) lo = s;
			else hi = s;
			const step = this.slope < 0 ? -this.value / this.slope : hi - lo;
			s += step;
			if (Math.abs(step) < lastStep || hi - lo < eventTolerance) return s;
		}
		throw new Error('a diode event could not be placed');
	}

	/** The margin's value and slope at the point that the segment was brought to. */
	private evaluate(): void {
		const { circuit, mode, segment, s, zRe, zIm, wRe, wIm, y0, y1 } = this.hand;
		let eA: number;
		let eB: number;
		let eC: number;
		let sA: number;
		let sB: number;
		let sC: number;
		let drive0 = mode.drive0 + mode.rippleDrive0 * circuit.rippleAmplitude * zIm;
		let drive1 = mode.drive1 + mode.rippleDrive1 * circuit.rippleAmplitude * zIm;
		if (circuit.sinusoidal) {
			const { emfRe, emfIm, omega } = circuit;
			eA = (emfRe[0] as number) * wIm + (emfIm[0] as number) * wRe;
			eB = (emfRe[1] as number) * wIm + (emfIm[1] as number) * wRe;
			eC = (emfRe[2] as number) * wIm + (emfIm[2] as number) * wRe;
			sA = omega * ((emfRe[0] as number) * wRe - (emfIm[0] as number) * wIm);
			sB = omega * ((emfRe[1] as number) * wRe - (emfIm[1] as number) * wIm);
			sC = omega * ((emfRe[2] as number) * wRe - (emfIm[2] as number) * wIm);
			drive0 += mode.emfDriveRe0 * wIm + mode.emfDriveIm0 * wRe;
			drive1 += mode.emfDriveRe1 * wIm + mode.emfDriveIm1 * wRe;
		} else {
			sA = segment.slopeA;
			sB = segment.slopeB;
			sC = segment.slopeC;
			eA = segment.emfA + sA * s;
			eB = segment.emfB + sB * s;
			eC = segment.emfC + sC * s;
			drive0 -= mode.uA0 * eA + mode.uB0 * eB + mode.uC0 * eC;
			drive1 -= mode.uA1 * eA + mode.uB1 * eB + mode.uC1 * eC;
		}
		this.value =
			this.constant +
			this.ripple * circuit.rippleAmplitude * zIm +
			this.emfA * eA +
			this.emfB * eB +
			this.emfC * eC +
			this.modal0 * y0 +
			this.modal1 * y1;
		this.slope =
			this.ripple * circuit.rippleAmplitude * circuit.rippleOmega * zRe +
			this.emfA * sA +
			this.emfB * sB +
			this.emfC * sC +
			this.modal0 * (drive0 - mode.rate0 * y0) +
			this.modal1 * (drive1 - mode.rate1 * y1);
	}
}

/**
 * Where a margin that goes from `v0` > 0 (slope s0) to `v1` < 0 (slope s1) in
 * `h` is zero, if time is taken as the cubic in the margin that fits both ends.
 */
function inverseCubic(h: number, v0: number, s0: number, v1: number, s1: number): number {
	const span = v1 - v0;
	const x = -v0 / span;
	const y = 1 - x;
	if (!(s0 < 0 && s1 < 0)) return h * x;
	return h * x * x * (3 - 2 * x) + (span / s0) * x * y * y - (span / s1) * x * x * y;
}
