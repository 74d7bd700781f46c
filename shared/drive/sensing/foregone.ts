import { realZero } from '../../maths/real-zero.ts';
import type { Circuit } from '../circuit.ts';
import type { Drive } from '../drive.ts';
import type { Ringing } from '../ringing.ts';
import { faint } from './kept-readings.ts';

/** Longest stretch that is passed over, as an angle of the bus ripple, rad. */
const longestTurn = 0.5;

/**
 * Tells which readings to come cannot but say "not crossed", so that they need
 * not be worked out: the comparator input is farther from the threshold than it
 * can move until then and any noise can reach.
 *
 * It moves as a rule as it did from the period before to this one, and is
 * allowed twice that; at least the most that the back-EMF can move it by, which
 * covers a freewheeling diode or a clamp that comes or goes; and what the bus
 * ripple may add to that by changing its slope.
 */
export class Foregone {
	/** Least distance from the threshold on the side "not crossed" over the samples of the period, V, and their number. */
	private least = Infinity;
	private taken = 0;
	/** The same distance in the period that was last read in full, and which that was. */
	private before = realZero;
	private beforePeriod = -1;
	/** Whether the open phase has been without current at one of the sector's readings: freewheeling is over. */
	private released = false;
	/** Of the sector: most that the back-EMF moves the input by in a period, V. */
	private move = realZero;
	/** Of the drive: distance from which on a reading is certain, V; samples in a period; most periods to pass over, 0 where none may be. */
	private certain = realZero;
	private samples = 0;
	private most = 0;
	private rippleMove = realZero;
	private readonly moves = new Float64Array(3);

	reset(drive: Drive, circuit: Circuit, ringing: Ringing): void {
		const { motor, sensing, detection, noise } = drive;
		const { period, omega, rippleAmplitude, rippleOmega } = circuit;
		const { bits, fullScale } = sensing.converter;
		// two codes, each rounded down
		const rounding = bits > 0 ? (2 * fullScale) / (1 << bits) : 0;
		this.certain = faint * noise.sigma + sensing.comparator.hysteresis / 2 + rounding;
		this.samples = detection.samples;
		const turn = rippleAmplitude === 0 ? 0 : rippleOmega * period;
		this.most = ringing.amplitude === 0 ? Math.floor(longestTurn / Math.max(turn, 1e-3)) : 0;
		let gain = 0;
		for (let k = 0; k < 3; k++) {
			const weight = (circuit.nodeWeights[k] as Float64Array)[k] as number;
			gain = Math.max(gain, weight);
			// on a ramp, as steep as a sinusoid at least; with half of another phase's on one as well
			const halfRamp = motor.sinusoidal ? 1 : (90 - motor.flatTop / 2) * (Math.PI / 180);
			this.moves[k] = (1.5 * weight * (circuit.emfPeak[k] as number) * omega * period) / halfRamp;
		}
		// over n periods a sinusoid leaves its tangent by at most A(n·turn)²/2
		this.rippleMove = 0.5 * longestTurn * turn * gain * rippleAmplitude;
	}

	/** @param phase the open one */
	openSector(phase: number): void {
		this.move = this.moves[phase] as number;
		this.released = false;
		this.beforePeriod = -1;
	}

	openPeriod(): void {
		this.least = Infinity;
		this.taken = 0;
	}

	/** One reading. @param distance of the comparator input without noise from the threshold, V, above 0 where not crossed */
	take(distance: number, conducts: boolean): void {
		this.taken++;
		if (distance < this.least) this.least = distance;
		if (!conducts) this.released = true;
	}

	/** The period's last reading has been taken. @returns how many periods after it are foregone */
	closePeriod(period: number): number {
		const { least, before, beforePeriod } = this;
		if (this.taken < this.samples || !this.released) return 0;
		this.before = least;
		this.beforePeriod = period;
		const room = least - this.certain;
		if (beforePeriod < 0 || !(room > 0)) return 0;
		const moved = Math.abs(least - before) / (period - beforePeriod);
		return Math.min(this.most, Math.floor(room / (Math.max(2 * moved, this.move) + this.rippleMove)));
	}
}
