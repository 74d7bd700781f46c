import { realZero } from '../maths/real-zero.ts';
import type { ConductionMode } from './conduction-mode.ts';

/**
 * A stretch of time in one conduction mode with every input smooth; with s
 * counted from its start
 *
 *   y_m(s) = A_m + B_m s + Im(gain_m·z(s)) + Im(emfGain_m·w(s)) + D_m e^{−λ_m s}
 *   e_k(s) = emf_k + slope_k s      (trapezoidal back-EMF)
 *   z(s) = z e^{jΩs},  w(s) = w e^{jωs}
 */
export class Segment {
	mode!: ConductionMode;
	/** When it begins and how long it lasts, s. */
	start = realZero;
	length = realZero;
	/** Modal currents: constant, slope and decaying part of each. */
	a0 = realZero;
	b0 = realZero;
	d0 = realZero;
	a1 = realZero;
	b1 = realZero;
	d1 = realZero;
	/** Trapezoidal back-EMF at the start, V, and its slope, V/s. */
	emfA = realZero;
	emfB = realZero;
	emfC = realZero;
	slopeA = realZero;
	slopeB = realZero;
	slopeC = realZero;
	/** Phasor of the bus ripple at the start; phasor of the electrical angle (sinusoidal back-EMF). */
	zRe = realZero;
	zIm = realZero;
	wRe = realZero;
	wIm = realZero;
	/** e^{−λ_m·length} */
	decay0 = realZero;
	decay1 = realZero;
	/** Of the latest PWM edge, whose ringing may last: its time (s), period, 0 turn-on or 1 turn-off, and the sector kind then. */
	ringTime = realZero;
	ringPeriod = 0;
	ringEdge = 0;
	ringKind = 0;
	/** Sector kind in force. */
	kind = 0;

	/** Trapezoidal back-EMF of phase k (0…2) `s` seconds in, V. */
	emfAt(k: number, s: number): number {
		return k === 0 ? this.emfA + this.slopeA * s : k === 1 ? this.emfB + this.slopeB * s : this.emfC + this.slopeC * s;
	}

	copyFrom(other: Segment): void {
		this.mode = other.mode;
		this.start = other.start;
		this.length = other.length;
		this.a0 = other.a0;
		this.b0 = other.b0;
		this.d0 = other.d0;
		this.a1 = other.a1;
		this.b1 = other.b1;
		this.d1 = other.d1;
		this.emfA = other.emfA;
		this.emfB = other.emfB;
		this.emfC = other.emfC;
		this.slopeA = other.slopeA;
		this.slopeB = other.slopeB;
		this.slopeC = other.slopeC;
		this.zRe = other.zRe;
		this.zIm = other.zIm;
		this.wRe = other.wRe;
		this.wIm = other.wIm;
		this.decay0 = other.decay0;
		this.decay1 = other.decay1;
		this.ringTime = other.ringTime;
		this.ringPeriod = other.ringPeriod;
		this.ringEdge = other.ringEdge;
		this.ringKind = other.ringKind;
		this.kind = other.kind;
	}
}
