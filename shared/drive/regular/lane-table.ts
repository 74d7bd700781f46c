import { decayInPlace } from '../../maths/decay.ts';
import { realZero } from '../../maths/real-zero.ts';
import type { BackEmf } from '../back-emf.ts';
import { forcedBend, modalBend, squareHalf } from '../bends.ts';
import type { Circuit } from '../circuit.ts';
import { highPhase, lowPhase, openPhase } from '../commutation-table.ts';
import { type ConductionMode, isDiode, lowDiode, modeCode, modeCodes, open, type Tie } from '../conduction-mode.ts';
import { mostParts } from '../power-stage/pwm-carrier.ts';
import { shortShare } from './short-step.ts';

/** Least distance from the rails, V, at which an open terminal is taken to have stayed between them. */
export const margin = 1e-2;
/** Kinds of stretch: a sector's kind, and which of its four pieces each back-EMF is on. */
const stretches = 6 * 4 * 4 * 4;

/**
 * One modal current in a lane: y' = drive + … − rate·y. Here and in the lane x
 * is the time since the open phase's back-EMF was last zero, or would have been
 * on its ramp (BackEmf.zero), s: between corners all back-EMFs are straight in it.
 */
export class LaneModal {
	/** y = Σ from·i, over the + − open phase. */
	fromHigh = realZero;
	fromLow = realZero;
	fromOpen = realZero;
	/** i = Σ to·y. */
	toHigh = realZero;
	toLow = realZero;
	toOpen = realZero;
	/** λ, and e^{−λ·(length of the part)}. */
	rate = realZero;
	inverseRate = realZero;
	full = realZero;
	/** A = constant + slope·x, B = slope, and the ripple's gain. */
	constant = realZero;
	slope = realZero;
	gainRe = realZero;
	gainIm = realZero;
	/** Of the rails alone; of the ripple. */
	drive = realZero;
	rippleDrive = realZero;
	/** ε = Σ U_k e_k = level + tilt·x. */
	level = realZero;
	tilt = realZero;
	/** Sinusoidal back-EMF: gain of e^{jθ} to y, and its weight in y' (imaginary parts taken). */
	emfRe = realZero;
	emfIm = realZero;
	emfDriveRe = realZero;
	emfDriveIm = realZero;
}

/** A diode that conducts in a lane. */
export class LaneDiode {
	/** 1, 2, 3: of the + − open phase. */
	phase = 0;
	/** Its current Σ to·y, ≥ 0 while it conducts. */
	toFirst = realZero;
	toSecond = realZero;
	/** The lane that its stop leads to; undefined where not yet looked up. */
	after: Lane | null | undefined;
}

/** An open terminal of a lane: v = level + rate·x + what lane.neutralRipple and .neutralModal add. */
export class LaneTerminal {
	/** 1, 2, 3: of the + − open phase. */
	phase = 0;
	level = realZero;
	rate = realZero;
	/** Sinusoidal back-EMF: weight of e^{jθ}. */
	emfRe = realZero;
	emfIm = realZero;
}

/** One conduction mode in one part of the period. */
export class Lane {
	mode!: ConductionMode;
	part = 0;
	tieHigh: Tie = open;
	tieLow: Tie = open;
	tieOpen: Tie = open;
	/** Modal currents: 0, 1 or 2. */
	modals = 0;
	readonly first = new LaneModal();
	readonly second = new LaneModal();
	/** Steps below this are short (short-step.ts), s. */
	shortLimit = realZero;
	/** Length of the part, s, that `full` of both holds for. */
	length = realZero;
	/** v_n's weights of the ripple and of the first modal current; v_low's of that current. */
	neutralRipple = realZero;
	neutralModal = realZero;
	lowRail = realZero;
	/**
	 * At a segment's end at least so far from the rails, V, and more so per unit of the first modal current's D
	 * (segment.ts), an open terminal has not been beyond them in between.
	 */
	bend = realZero;
	bendModal = realZero;
	/**
	 * At least so large then, A per square of the segment's length, s², and more so per unit of both modal currents' D, a
	 * diode's current has not been zero.
	 */
	dip = realZero;
	dip0 = realZero;
	dip1 = realZero;
	/** The first so many of each hold; no terminal where all are open (then none is watched). */
	diodeCount = 0;
	readonly diodes = [new LaneDiode(), new LaneDiode(), new LaneDiode()] as const;
	terminalCount = 0;
	readonly terminals = [new LaneTerminal(), new LaneTerminal(), new LaneTerminal()] as const;
	/** The first of each. */
	readonly diode: LaneDiode = this.diodes[0];
	readonly terminal: LaneTerminal = this.terminals[0];
	/**
	 * When about a diode last stopped in this lane, s after the lane was entered, 0 where none did, and which. Then what
	 * was worked out for just that span: decays of the modal currents, turns of ripple and rotor.
	 */
	lastStop = realZero;
	lastStopped!: LaneDiode;
	stopDecay0 = realZero;
	stopDecay1 = realZero;
	stopTurnRe = realZero;
	stopTurnIm = realZero;
	stopRotorRe = realZero;
	stopRotorIm = realZero;
	/** A span that was left of the part when the lane was entered, s, and the decays over it. */
	lastSpan = realZero;
	spanDecay0 = realZero;
	spanDecay1 = realZero;
}

/** The lanes of one kind of stretch: a sector's kind, and pieces of the three back-EMFs. */
class LaneSet {
	/** The first so many hold. */
	count = 0;
	readonly lanes: Lane[] = [];
	/** Lane number of part and ties, −1 where not yet worked out. */
	readonly index = new Int8Array(mostParts * modeCodes);
}

/**
 * What the short way needs of each conduction mode in each part
 * of a PWM period, worked out when first met and kept for all stretches of its
 * kind: in every turn these numbers are the same. Only what hangs on a part's
 * length follows the duty.
 */
export class LaneTable {
	/** Number of the present drive's set for each kind of stretch, −1 where not yet met. */
	private readonly index = new Int16Array(stretches);
	private set!: LaneSet;
	/** All that were ever made, and how many of them the present drive uses: memory is that of the drive which needed most. */
	private readonly allSets: LaneSet[] = [];
	private setsUsed = 0;
	private readonly allLanes: Lane[] = [];
	private lanesUsed = 0;
	private circuit!: Circuit;
	private emf!: BackEmf;
	private kind = 0;

	/** The drive has changed. */
	reset(): void {
		this.index.fill(-1);
		this.setsUsed = this.lanesUsed = 0;
	}

	/** Another run begins: nothing is remembered of where diodes stopped. */
	forget(): void {
		for (let number = 0; number < this.lanesUsed; number++) forgetStops(this.allLanes[number] as Lane);
	}

	/**
	 * Turns to a stretch: sector kind, and the back-EMF's pieces that hold now.
	 */
	enter(circuit: Circuit, emf: BackEmf, kind: number): void {
		this.circuit = circuit;
		this.emf = emf;
		this.kind = kind;
		const key = emf.piecesCode * 6 + kind;
		let number = this.index[key] as number;
		if (number < 0) {
			number = this.setsUsed++;
			this.index[key] = number;
			if (number === this.allSets.length) this.allSets.push(new LaneSet());
			const set = this.allSets[number] as LaneSet;
			set.count = 0;
			set.index.fill(-1);
		}
		this.set = this.allSets[number] as LaneSet;
	}

	/** The lane for a part and three ties, null where nothing at all conducts but back-EMFs could make two diodes do so. */
	at(part: number, tieHigh: number, tieLow: number, tieOpen: number): Lane | null {
		const { set } = this;
		const number = set.index[part * modeCodes + tieHigh + 5 * tieLow + 25 * tieOpen] as number;
		return number >= 0 ? (set.lanes[number] as Lane) : this.add(part, tieHigh as Tie, tieLow as Tie, tieOpen as Tie);
	}

	/** The lane that follows when a diode of `lane` stops. */
	after(lane: Lane, diode: LaneDiode): Lane | null {
		let next = diode.after;
		if (next === undefined) {
			const { part } = lane;
			let ties: [Tie, Tie, Tie] = [lane.tieHigh, lane.tieLow, lane.tieOpen];
			// with one current only, it stops in both of its phases
			if (lane.modals === 1) ties = ties.map((tie) => (isDiode(tie) ? open : tie)) as typeof ties;
			else ties[diode.phase - 1] = open;
			next = this.at(part, ...ties);
			diode.after = next;
		}
		return next;
	}

	private add(part: number, tieHigh: Tie, tieLow: Tie, tieOpen: Tie): Lane | null {
		const { circuit, emf, kind, set } = this;
		const high = highPhase[kind] as number;
		const low = lowPhase[kind] as number;
		const third = openPhase[kind] as number;
		const ties: [Tie, Tie, Tie] = [open, open, open];
		ties[high] = tieHigh;
		ties[low] = tieLow;
		ties[third] = tieOpen;
		const mode = circuit.mode(ties[0], ties[1], ties[2]);
		if (mode.conducting === 0 && !staysIdle(circuit)) return null;
		let lane = this.allLanes[this.lanesUsed];
		if (lane === undefined) {
			lane = new Lane();
			this.allLanes.push(lane);
		}
		this.lanesUsed++;
		set.lanes[set.count] = lane;
		set.index[part * modeCodes + modeCode(tieHigh, tieLow, tieOpen)] = set.count++;
		lane.mode = mode;
		lane.part = part;
		lane.tieHigh = tieHigh;
		lane.tieLow = tieLow;
		lane.tieOpen = tieOpen;
		lane.length = -1;
		forgetStops(lane);
		lane.modals = mode.modalCount;
		lane.neutralRipple = mode.neutralRipple;
		lane.neutralModal = mode.neutral0;
		lane.lowRail = mode.lowRail0;

		// back-EMFs of the + − open phase at x = 0, and their slopes
		const levelHigh = emf.levelAtZeroOf(high, third);
		const levelLow = emf.levelAtZeroOf(low, third);
		const levelOpen = emf.levelAtZeroOf(third, third);
		const slopeHigh = emf.slope[high] as number;
		const slopeLow = emf.slope[low] as number;
		const slopeOpen = emf.slope[third] as number;
		const pullHigh = mode.neutralEmf(high);
		const pullLow = mode.neutralEmf(low);
		const pullOpen = mode.neutralEmf(third);
		const star = mode.neutral + pullHigh * levelHigh + pullLow * levelLow + pullOpen * levelOpen;
		const starRate = pullHigh * slopeHigh + pullLow * slopeLow + pullOpen * slopeOpen;
		lane.diodeCount = lane.terminalCount = 0;
		if (mode.conducting > 0) {
			this.addTie(lane, 1, tieHigh, high, star + levelHigh, starRate + slopeHigh);
			this.addTie(lane, 2, tieLow, low, star + levelLow, starRate + slopeLow);
			this.addTie(lane, 3, tieOpen, third, star + levelOpen, starRate + slopeOpen);
		}
		let fastest = Math.max(circuit.rippleOmega, circuit.sinusoidal ? circuit.omega : 0);
		for (let m = 0; m < lane.modals; m++) {
			const first = m === 0;
			const modal = first ? lane.first : lane.second;
			const lambda = first ? mode.rate0 : mode.rate1;
			modal.toHigh = mode.u(high, first ? 0 : 1);
			modal.toLow = mode.u(low, first ? 0 : 1);
			modal.toOpen = mode.u(third, first ? 0 : 1);
			modal.fromHigh = modal.toHigh * (circuit.inductance[high] as number);
			modal.fromLow = modal.toLow * (circuit.inductance[low] as number);
			modal.fromOpen = modal.toOpen * (circuit.inductance[third] as number);
			modal.rate = lambda;
			modal.inverseRate = 1 / lambda;
			modal.drive = first ? mode.drive0 : mode.drive1;
			modal.level = modal.toHigh * levelHigh + modal.toLow * levelLow + modal.toOpen * levelOpen;
			modal.tilt = modal.toHigh * slopeHigh + modal.toLow * slopeLow + modal.toOpen * slopeOpen;
			modal.slope = -modal.tilt / lambda;
			modal.constant = (modal.drive - modal.level - modal.slope) / lambda;
			modal.gainRe = first ? mode.rippleRe0 : mode.rippleRe1;
			modal.gainIm = first ? mode.rippleIm0 : mode.rippleIm1;
			modal.rippleDrive = first ? mode.rippleDrive0 : mode.rippleDrive1;
			fastest = Math.max(fastest, lambda);
			if (!circuit.sinusoidal) continue;
			modal.emfRe = first ? mode.emfRe0 : mode.emfRe1;
			modal.emfIm = first ? mode.emfIm0 : mode.emfIm1;
			modal.emfDriveRe = first ? mode.emfDriveRe0 : mode.emfDriveRe1;
			modal.emfDriveIm = first ? mode.emfDriveIm0 : mode.emfDriveIm1;
		}
		lane.shortLimit = shortShare / fastest;
		this.setBends(lane);
		return lane;
	}

	/** How near to zero its margins may be at a segment's end (bends.ts). */
	private setBends(lane: Lane): void {
		const { circuit } = this;
		const { period } = circuit;
		lane.bend = margin + forcedBend(circuit, lane.mode, period);
		lane.bendModal = modalBend(lane.mode, period);
		lane.dip = lane.dip0 = lane.dip1 = 0;
		for (let m = 0; m < lane.modals; m++) {
			const { rate, toHigh, toLow, toOpen, gainRe, gainIm, emfRe, emfIm } = m === 0 ? lane.first : lane.second;
			const most = Math.max(Math.abs(toHigh), Math.abs(toLow), Math.abs(toOpen));
			if (m === 0) lane.dip0 = most * squareHalf(rate);
			else lane.dip1 = most * squareHalf(rate);
			lane.dip += most * squareHalf(circuit.rippleOmega) * (Math.abs(gainRe) + Math.abs(gainIm));
			if (!circuit.sinusoidal) continue;
			lane.dip += most * squareHalf(circuit.omega) * (Math.abs(emfRe) + Math.abs(emfIm));
		}
	}

	/** Notes how phase `k`, the lane's number `phase`, is tied; `level` and `rate` of its terminal where open. */
	private addTie(lane: Lane, phase: number, tie: Tie, k: number, level: number, rate: number): void {
		if (tie === open) {
			const terminal = lane.terminals[lane.terminalCount++] as LaneTerminal;
			terminal.phase = phase;
			terminal.level = level;
			terminal.rate = rate;
			const { sinusoidal, emfRe, emfIm } = this.circuit;
			if (!sinusoidal) return;
			terminal.emfRe = emfRe[k] as number;
			terminal.emfIm = emfIm[k] as number;
			for (let other = 0; other < 3; other++) {
				const pull = lane.mode.neutralEmf(other);
				terminal.emfRe += pull * (emfRe[other] as number);
				terminal.emfIm += pull * (emfIm[other] as number);
			}
		} else if (isDiode(tie)) {
			const sign = tie === lowDiode ? 1 : -1;
			const diode = lane.diodes[lane.diodeCount++] as LaneDiode;
			diode.phase = phase;
			diode.toFirst = sign * lane.mode.u(k, 0);
			diode.toSecond = sign * lane.mode.u(k, 1);
			diode.after = undefined;
		}
	}
}

/** Whether phases with all switches open and no current stay so at any angle: no two back-EMFs together reach from rail to rail. */
function staysIdle({ emfPeak, emfRe, emfIm, sinusoidal, voltage, rippleAmplitude, diodeDrop }: Circuit): boolean {
	const least = voltage - rippleAmplitude + 2 * diodeDrop - margin;
	for (let k = 0; k < 3; k++) {
		const next = (k + 1) % 3;
		const re = (emfRe[k] as number) - (emfRe[next] as number);
		const im = (emfIm[k] as number) - (emfIm[next] as number);
		const most = sinusoidal ? Math.sqrt(re * re + im * im) : (emfPeak[k] as number) + (emfPeak[next] as number);
		if (most >= least) return false;
	}
	return true;
}

function forgetStops(lane: Lane): void {
	lane.lastStop = 0;
	lane.lastSpan = Number.NEGATIVE_INFINITY;
}

const cells = new Float64Array(2);

/** Works out the decays over a whole part of lane.length. */
export function setFull({ length, modals, first, second }: Lane): void {
	if (modals === 0) return;
	cells[0] = first.rate * length;
	decayInPlace(cells, 0);
	first.full = cells[0] as number;
	if (modals === 1) return;
	cells[1] = second.rate * length;
	decayInPlace(cells, 1);
	second.full = cells[1] as number;
}
