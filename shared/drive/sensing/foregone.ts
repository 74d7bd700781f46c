import { decayInPlace } from '../../maths/decay.ts';
import { realZero } from '../../maths/real-zero.ts';
import { type Circuit, radian } from '../circuit.ts';
import type { Drive } from '../drive.ts';
import type { Ringing } from '../ringing.ts';
import { faint } from './kept-readings.ts';

/** Most periods passed over at once. */
const longest = 1e6;

/**
 * Tells which readings to come cannot but say "not crossed", so that they need
 * not be worked out: the comparator input is farther from the threshold than
 * any noise reaches and than it can move by until then.
 *
 * Late enough in the on-window networks have settled, and the input follows the
 * back-EMFs, which bounds how far it moves in a period. What networks still
 * know of how switches and diodes were before counts as noise, and a period in
 * which a diode holds the open phase tells nothing: it lets go all at once.
 */
export class Foregone {
	/** Of the reading to take: the comparator input's distance from the threshold without noise, V, above 0 where not crossed; time since switches and diodes were last otherwise, s. */
	distance = realZero;
	since = realZero;
	/** Of the period so far: samples taken, the least of their distances from the threshold, V, the least time since a terminal was switched, s, whether a diode conducted. */
	private taken = 0;
	private least = realZero;
	private settled = realZero;
	private conducted = false;
	/** Whether any reading of the drive may be passed over; samples in a period. */
	passable = false;
	private samples = 0;
	/** Distance from which on a reading is certain, and most that the input moves by in a period, V. */
	private certain = realZero;
	private move = realZero;
	/** The slowest network's time constant, s, and how far a node may be from where it settles, V. */
	private settling = realZero;
	private swing = realZero;
	private readonly cells = new Float64Array(1);

	/** @param follows time constant with which the threshold follows the terminals, s */
	reset(drive: Drive, circuit: Circuit, ringing: Ringing, follows: number): void {
		const { motor, sensing, detection, noise } = drive;
		const { period, omega, rippleAmplitude, rippleOmega, nodeWeights, emfPeak } = circuit;
		const { bits, fullScale } = sensing.converter;
		// two codes, each rounded down
		const rounding = bits > 0 ? (2 * fullScale) / (1 << bits) : 0;
		// hysteresis keeps what is not crossed so for longer
		this.certain = faint * noise.sigma + rounding;
		this.samples = detection.samples;
		this.passable = detection.window === 'on' && ringing.amplitude === 0;
		const gain = Math.max(...[0, 1, 2].map((k) => nodeWeights[k]?.[k] as number));
		const ramp = motor.sinusoidal ? 1 : (90 - motor.flatTop / 2) * radian;
		// half of a driven phase's back-EMF comes on top, where that is on a ramp as well
		const slope = (1.5 * Math.max(...emfPeak) * omega) / ramp;
		// of the ripple, a sinusoid, at most its amplitude times its turn
		this.move = gain * (slope * period + rippleAmplitude * rippleOmega * period);
		this.settling = Math.max(follows, ...circuit.nodeTau.subarray(0, 3));
		this.swing = gain * (circuit.voltage + rippleAmplitude + 2 * circuit.diodeDrop);
	}

	openPeriod(): void {
		this.taken = 0;
		this.least = Infinity;
		this.settled = Infinity;
		this.conducted = false;
	}

	/** One reading, at `distance` and `since`. @param conducts whether the open phase's diode conducts */
	take(conducts: boolean): void {
		this.taken++;
		if (this.distance < this.least) this.least = this.distance;
		if (this.since < this.settled) this.settled = this.since;
		if (conducts) this.conducted = true;
	}

	/** How many periods after the present one, whose last reading has been taken, are foregone. */
	get periods(): number {
		if (this.conducted || this.taken < this.samples || this.least <= this.certain) return 0;
		this.cells[0] = this.settled / this.settling;
		decayInPlace(this.cells, 0);
		const room = this.least - this.certain - this.swing * (this.cells[0] as number);
		return room > 0 ? Math.ceil(Math.min(room / this.move, longest)) - 1 : 0;
	}
}
