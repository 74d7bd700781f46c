import { realZero } from '../../maths/real-zero.ts';

/**
 * What carries regular periods from segment to segment. As arguments or results
 * of calls that the compiler does not inline, each number would be put on the
 * heap; written into a field it is not.
 */
export class PeriodState {
	/** Currents of + − and open phase, A. */
	high = realZero;
	low = realZero;
	open = realZero;
	/** Phasors of bus ripple and electrical angle. */
	zRe = realZero;
	zIm = realZero;
	wRe = realZero;
	wIm = realZero;
	/** Time since the open phase's back-EMF was zero (lane-table.ts), s; and when that was, s. */
	x = realZero;
	zero = realZero;
	/** Work done, J. */
	work = realZero;

	/** Length of the part and what is left of it, s; phasors at its end. */
	part = realZero;
	rest = realZero;
	zRePart = realZero;
	zImPart = realZero;
	wRePart = realZero;
	wImPart = realZero;

	/** Ripple: amplitude, V; angular frequency, rad/s, its inverse, and amplitude over it. */
	amplitude = realZero;
	omega = realZero;
	inverseOmega = realZero;
	rippleTime = realZero;
	/** Angular frequency of the electrical angle where the back-EMF is sinusoidal, else 0, rad/s. */
	rotor = realZero;
	/** Diode drop, and that above the bus without ripple, V. */
	drop = realZero;
	top = realZero;

	/** Segment at hand: length, s; modal currents at its start, A and D of theirs (segment.ts), e^{−λ·length}; modal currents and phasors at its end. */
	span = realZero;
	y0 = realZero;
	y1 = realZero;
	a0 = realZero;
	a1 = realZero;
	d0 = realZero;
	d1 = realZero;
	decay0 = realZero;
	decay1 = realZero;
	y0End = realZero;
	y1End = realZero;
	zReEnd = realZero;
	zImEnd = realZero;
	wReEnd = realZero;
	wImEnd = realZero;
}
