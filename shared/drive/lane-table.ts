import { decay } from '../maths/decay.ts';
import { realZero } from '../maths/real-zero.ts';
import type { BackEmf } from './back-emf.ts';
import type { Circuit } from './circuit.ts';
import { highPhase, lowPhase, openPhase } from './commutation-table.ts';
import { type ConductionMode, modeCode, modeCodes, open, type Tie } from './conduction-mode.ts';

/** Parts of a PWM period at the most: on, dead, low switch closed, dead. */
export const mostParts = 4;
/** Lanes kept for one kind of sector; more ways to conduct than this are left to the careful way. */
const mostLanes = 24;
const kinds = 6;

/** One modal current in a lane: y' = drive + … − rate·y. */
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
	/** A = constant + perEmf·e_z, B, and the ripple's gain. */
	constant = realZero;
	perEmf = realZero;
	slope = realZero;
	gainRe = realZero;
	gainIm = realZero;
	/** Of rails and flats alone; of the ripple. */
	drive = realZero;
	rippleDrive = realZero;
	/** ε = level + toOpen·e_z, ε' = tilt = toOpen·(slope of e_z). */
	level = realZero;
	tilt = realZero;
}

/** One conduction mode in one part of the period. */
export class Lane {
	mode!: ConductionMode;
	part = 0;
	/** Modal currents: 0, 1 or 2. */
	modals = 0;
	readonly first = new LaneModal();
	readonly second = new LaneModal();
	/** v_n: constant, weights of the open phase's EMF, of the ripple and of the first modal current. */
	neutral = realZero;
	neutralEmf = realZero;
	neutralRipple = realZero;
	neutralModal = realZero;
	/** v_low's weight of the first modal current. */
	lowRail = realZero;
	/**
	 * When about a diode last stopped in this lane, s after the lane was entered, 0 where none did; 1, 2, 3: of the + −
	 * open phase. Then what was worked out for just that span: decays of the modal currents, turn of the ripple.
	 */
	lastStop = realZero;
	lastStopped = 0;
	stopDecay0 = realZero;
	stopDecay1 = realZero;
	stopTurnRe = realZero;
	stopTurnIm = realZero;
	/** A span that was left of the part when the lane was entered, s, and the decays over it. */
	lastSpan = realZero;
	spanDecay0 = realZero;
	spanDecay1 = realZero;
}

/**
 * What the loop over regular periods needs of each conduction mode in each part
 * of a PWM period, worked out when first met and kept for all sectors of its
 * kind: with the driven phases on their flats these numbers are the same in
 * every turn. Only what hangs on a part's length follows the duty.
 */
export class LaneTable {
	private readonly lanes = Array.from({ length: kinds * mostLanes }, () => new Lane());
	/** Lane number of kind, part and mode, −1 where not yet worked out. */
	private readonly index = new Int16Array(kinds * mostParts * modeCodes);
	private readonly counts = new Uint8Array(kinds);
	/** Levels of + and − phase and slope of the open one that a kind's lanes hold for. */
	private readonly made = new Float64Array(kinds * 3);
	private circuit!: Circuit;
	private emf!: BackEmf;
	private lengths!: Float64Array;
	private kind = 0;

	/** The drive has changed. */
	reset(): void {
		this.counts.fill(0);
	}

	/**
	 * Turns to a sector of this kind and a duty.
	 * @param lengths of the parts at this duty, s
	 */
	enter(circuit: Circuit, emf: BackEmf, kind: number, lengths: Float64Array): void {
		this.circuit = circuit;
		this.emf = emf;
		this.kind = kind;
		this.lengths = lengths;
		const { made, counts, lanes } = this;
		const high = emf.level[highPhase[kind] as number] as number;
		const low = emf.level[lowPhase[kind] as number] as number;
		const rise = emf.slope[openPhase[kind] as number] as number;
		const at = kind * 3;
		if (counts[kind] === 0 || made[at] !== high || made[at + 1] !== low || made[at + 2] !== rise) {
			counts[kind] = 0;
			made[at] = high;
			made[at + 1] = low;
			made[at + 2] = rise;
			this.index.fill(-1, kind * mostParts * modeCodes, (kind + 1) * mostParts * modeCodes);
			return;
		}
		const first = kind * mostLanes;
		for (let number = first; number < first + (counts[kind] as number); number++) {
			const lane = lanes[number] as Lane;
			const length = lengths[lane.part] as number;
			if (lane.modals > 0) lane.first.full = decay(lane.first.rate * length);
			if (lane.modals > 1) lane.second.full = decay(lane.second.rate * length);
		}
	}

	/** The lane for a part and three ties, null where there is no room for another. */
	at(part: number, tieHigh: number, tieLow: number, tieOpen: number): Lane | null {
		const place = (this.kind * mostParts + part) * modeCodes + tieHigh + 5 * tieLow + 25 * tieOpen;
		const number = this.index[place] as number;
		return number >= 0 ? (this.lanes[number] as Lane) : this.add(part, tieHigh as Tie, tieLow as Tie, tieOpen as Tie);
	}

	private add(part: number, tieHigh: Tie, tieLow: Tie, tieOpen: Tie): Lane | null {
		const { circuit, emf, kind, counts } = this;
		if (counts[kind] === mostLanes) return null;
		const high = highPhase[kind] as number;
		const low = lowPhase[kind] as number;
		const third = openPhase[kind] as number;
		const ties: [Tie, Tie, Tie] = [open, open, open];
		ties[high] = tieHigh;
		ties[low] = tieLow;
		ties[third] = tieOpen;
		const mode = circuit.mode(ties[0], ties[1], ties[2]);
		const number = kind * mostLanes + (counts[kind] as number);
		counts[kind] = (counts[kind] as number) + 1;
		this.index[(kind * mostParts + part) * modeCodes + modeCode(tieHigh, tieLow, tieOpen)] = number;
		const lane = this.lanes[number] as Lane;
		lane.mode = mode;
		lane.part = part;
		lane.lastStop = 0;
		lane.lastSpan = Number.NEGATIVE_INFINITY;

		const eHigh = emf.level[high] as number;
		const eLow = emf.level[low] as number;
		const weight = (k: number): number => (k === 0 ? mode.neutralEmfA : k === 1 ? mode.neutralEmfB : mode.neutralEmfC);
		lane.modals = mode.modalCount;
		lane.neutral = mode.neutral + weight(high) * eHigh + weight(low) * eLow;
		lane.neutralEmf = weight(third);
		lane.neutralRipple = mode.neutralRipple;
		lane.neutralModal = mode.neutral0;
		lane.lowRail = mode.lowRail0;
		for (const m of [0, 1] as const) {
			const modal = m === 0 ? lane.first : lane.second;
			const uHigh = mode.u(high, m);
			const uLow = mode.u(low, m);
			const uOpen = mode.u(third, m);
			const lambda = m === 0 ? mode.rate0 : mode.rate1;
			const flats = uHigh * eHigh + uLow * eLow;
			const rise = uOpen * (emf.slope[third] as number);
			const push = (m === 0 ? mode.drive0 : mode.drive1) - flats;
			modal.fromHigh = uHigh * (circuit.inductance[high] as number);
			modal.fromLow = uLow * (circuit.inductance[low] as number);
			modal.fromOpen = uOpen * (circuit.inductance[third] as number);
			modal.toHigh = uHigh;
			modal.toLow = uLow;
			modal.toOpen = uOpen;
			modal.rate = lambda;
			modal.inverseRate = 1 / lambda;
			modal.full = m < mode.modalCount ? decay(lambda * (this.lengths[part] as number)) : 0;
			modal.drive = push;
			modal.slope = -rise / lambda;
			modal.constant = (push + rise / lambda) / lambda;
			modal.perEmf = -uOpen / lambda;
			modal.gainRe = m === 0 ? mode.rippleRe0 : mode.rippleRe1;
			modal.gainIm = m === 0 ? mode.rippleIm0 : mode.rippleIm1;
			modal.rippleDrive = m === 0 ? mode.rippleDrive0 : mode.rippleDrive1;
			modal.level = flats;
			modal.tilt = rise;
		}
		return lane;
	}
}
