import { decayInPlace } from '../../maths/decay.ts';
import { realZero } from '../../maths/real-zero.ts';
import type { BackEmf } from '../back-emf.ts';
import type { Circuit } from '../circuit.ts';
import { highPhase, lowPhase, openPhase } from '../commutation-table.ts';
import type { Drive } from '../drive.ts';
import type { Ringing } from '../ringing.ts';
import { faint } from './kept-readings.ts';
import type { Threshold } from './threshold.ts';

/** Most periods passed over at once. */
const longest = 1e6;

/** Of times that are the same period after period. */
const rounding = 1e-6;

const noWeights = new Float64Array(3);

/**
 * Tells which readings to come cannot but say "not crossed", so that they need
 * not be worked out: the comparator input is farther from the threshold than
 * any noise reaches and than it can move by until then.
 *
 * Late enough in the on-window networks have settled. With + phase p, − phase q
 * and open phase o, w_p = L_q/(L_p + L_q), w_q = 1 − w_p, the open terminal is at
 *
 *   v_o = e_o − w_p e_p − w_q e_q + w_p v_bus + κ i_p,
 *   κ = w_q (R_sh + R_on + R_q) − w_p (R_on + R_p),
 *
 * and sense node and threshold are weighted sums of v_o, v_p = v_bus − R_on i_p
 * and v_q = (R_sh + R_on) i_p. Until the next corner back-EMFs move the input
 * by as much every period, and ripple by a bounded amount. The current may be
 * anywhere within its bounds, and what networks still know of how switches,
 * diodes and back-EMFs were before counts as noise.
 * A period in which a diode holds the open phase tells nothing: it lets go all
 * at once; nor does one whose duty ends with it, nor a sector's first: its
 * off-window may hold the open phase longer, into the on-window. From then on
 * the back-EMF goes towards its crossing and the diode lets go ever sooner.
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
	/** That least time in the sector's last period with all its samples, s. */
	private settledBefore = realZero;
	/** Whether any reading of the drive may be passed over; samples in a period. */
	passable = false;
	private samples = 0;
	/** Distance from which on a reading is certain, V. */
	private certain = realZero;
	/** By the sector's kind: most that ripple, and sinusoidal back-EMFs, move the input by in a period, V; w_p; and what the input moves by in a period for each V/s of the open terminal, s. */
	private readonly steady = new Float64Array(6);
	private readonly share = new Float64Array(6);
	private readonly pull = new Float64Array(6);
	/** The slowest network's time constant, s, and how far a node may be from where it settles, V. */
	private settling = realZero;
	private swing = realZero;
	private readonly cells = new Float64Array(1);

	reset(drive: Drive, circuit: Circuit, ringing: Ringing, threshold: Threshold): void {
		const { sensing, detection, noise } = drive;
		const { nodeTau, nodeWeights, rippleAmplitude, diodeDrop } = circuit;
		this.samples = detection.samples;
		this.passable = detection.window === 'on' && ringing.amplitude === 0;
		if (!this.passable) return;
		const star = threshold.node < 0 ? noWeights : (nodeWeights[threshold.node] as Float64Array);
		const busGain = threshold.busGain(circuit);
		let gain = 0;
		let wander = 0;
		for (let kind = 0; kind < 6; kind++) {
			const open = openPhase[kind] as number;
			const sense = nodeWeights[open]?.[open] as number;
			gain = Math.max(gain, sense);
			wander = Math.max(wander, unsteady(drive, circuit, kind, sense, star, busGain));
			const pull = Math.abs(sense - (star[open] as number)) * circuit.period;
			this.pull[kind] = pull;
			this.share[kind] = highShare(circuit, highPhase[kind] as number, lowPhase[kind] as number);
			const byRotor = circuit.sinusoidal ? pull * steepest(circuit, kind) : 0;
			this.steady[kind] = rippled(circuit, kind, sense, star, busGain) + byRotor;
		}
		const { bits, fullScale } = sensing.converter;
		// two codes, each rounded down
		const code = bits > 0 ? (2 * fullScale) / (1 << bits) : 0;
		// hysteresis keeps what is not crossed so for longer
		this.certain = faint * noise.sigma + code + wander;
		this.settling = threshold.node < 0 ? 0 : (nodeTau[threshold.node] as number);
		for (let k = 0; k < 3; k++) this.settling = Math.max(this.settling, nodeTau[k] as number);
		this.swing = gain * (circuit.voltage + rippleAmplitude + 2 * diodeDrop);
	}

	openSector(): void {
		this.openPeriod();
		this.settledBefore = Infinity;
	}

	openPeriod(): void {
		if (this.taken === this.samples) this.settledBefore = this.settled;
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

	/**
	 * How many periods after the present one, whose last reading has been taken, are foregone.
	 * @param kind the sector's
	 * @param most periods before the next corner of the back-EMF
	 */
	periods(emf: BackEmf, kind: number, most: number): number {
		if (this.conducted || this.taken < this.samples || this.least <= this.certain) return 0;
		if (this.settled < (1 - rounding) * this.settledBefore) return 0;
		this.cells[0] = this.settled / this.settling;
		decayInPlace(this.cells, 0);
		const room = this.least - this.certain - this.swing * (this.cells[0] as number);
		if (!(room > 0)) return 0;
		const move = (this.steady[kind] as number) + (this.pull[kind] as number) * this.slope(emf, kind);
		return Math.ceil(Math.min(room / move, most + 1, longest)) - 1;
	}

	/** How fast back-EMFs on straight pieces move the open terminal until the next corner, V/s. */
	private slope({ slope }: BackEmf, kind: number): number {
		return Math.abs(atOpen(slope, kind, this.share[kind] as number));
	}
}

/** w_p, by which the + phase's terminal moves the neutral; the − phase's does by the rest. */
function highShare({ inductance }: Circuit, high: number, low: number): number {
	return (inductance[low] as number) / ((inductance[high] as number) + (inductance[low] as number));
}

/** What the phases' back-EMFs, or anything linear in them, make of the open terminal: e_o − w_p e_p − w_q e_q. */
function atOpen(of: Float64Array, kind: number, share: number): number {
	const [open, high, low] = phasesOf(kind);
	return (of[open] as number) - share * (of[high] as number) - (1 - share) * (of[low] as number);
}

/** The fastest that sinusoidal back-EMFs move the open terminal, V/s. */
function steepest(circuit: Circuit, kind: number): number {
	const { emfRe, emfIm, omega } = circuit;
	const [, high, low] = phasesOf(kind);
	const share = highShare(circuit, high, low);
	const re = atOpen(emfRe, kind, share);
	const im = atOpen(emfIm, kind, share);
	return Math.sqrt(re * re + im * im) * omega;
}

/** Most that ripple moves the comparator input by in a PWM period of one kind of sector, V. */
function rippled(circuit: Circuit, kind: number, sense: number, star: Float64Array, bus: number): number {
	const { period, rippleAmplitude, rippleOmega } = circuit;
	const [open, high, low] = phasesOf(kind);
	const share = highShare(circuit, high, low);
	// sense node and threshold lag by up to a quarter turn each, so that the larger alone bounds the difference
	const weight = Math.max(sense * share, (star[open] as number) * share + (star[high] as number) + bus);
	return weight * rippleAmplitude * rippleOmega * period;
}

/** How far the comparator input may be moved by what no rate bounds, in one kind of sector, V. */
function unsteady(
	drive: Drive,
	circuit: Circuit,
	kind: number,
	sense: number,
	star: Float64Array,
	bus: number,
): number {
	const { resistance, emfPeak, voltage, rippleAmplitude, diodeDrop, switchResistance, shuntResistance } = circuit;
	const [open, high, low] = phasesOf(kind);
	const share = highShare(circuit, high, low);
	const ofHigh = switchResistance + (resistance[high] as number);
	const ofLow = switchResistance + (resistance[low] as number) + shuntResistance;
	const ofOpen = sense - (star[open] as number);
	const rail = voltage + rippleAmplitude;
	// the current lies between what the back-EMFs and what they and the bus drive through the windings
	const currents = (rail + 2 * ((emfPeak[high] as number) + (emfPeak[low] as number))) / (ofHigh + ofLow);
	const byCurrent =
		ofOpen * ((1 - share) * ofLow - share * ofHigh) +
		(star[high] as number) * switchResistance -
		(star[low] as number) * (switchResistance + shuntResistance);
	// so near to the crossing the off-window's clamp may already hold the open phase on the crossed side, into the on-window
	const level = ((star[high] as number) + bus) / ofOpen;
	const clamp = Math.abs(share - level) * rail - Math.min(share, 1 - share) * diodeDrop;
	const offset = Math.abs(drive.sensing.comparator.offset[open]);
	return Math.abs(byCurrent) * currents + Math.max(0, Math.abs(ofOpen) * clamp + offset);
}

function phasesOf(kind: number): readonly [open: 0 | 1 | 2, high: 0 | 1 | 2, low: 0 | 1 | 2] {
	return [openPhase[kind] as 0 | 1 | 2, highPhase[kind] as 0 | 1 | 2, lowPhase[kind] as 0 | 1 | 2];
}
