import { decay } from '../maths/decay.ts';
import type { BackEmf } from './back-emf.ts';
import type { Circuit } from './circuit.ts';
import { highPhase, lowPhase, openPhase } from './commutation-table.ts';
import { type ConductionMode, modeCode, modeCodes, open, type Tie } from './conduction-mode.ts';

/** Parts of a PWM period at the most: on, dead, low switch closed, dead. */
export const mostParts = 4;
/** Lanes kept for one kind of sector; more ways to conduct than this are left to the careful way. */
const mostLanes = 24;
const kinds = 6;

// Numbers of one lane: one conduction mode in one part of the period.
export const modals = 0; // modal currents: 0, 1 or 2
export const neutral = 1; // v_n: constant, weights of the open phase's EMF, of the ripple and of the first modal current
export const neutralEmf = 2;
export const neutralRipple = 3;
export const neutralModal = 4;
export const lowRail = 5; // v_low's weight of the first modal current
/**
 * When about a diode last stopped in this lane, s after the lane was entered, 0 where none did; 1, 2, 3: of the + −
 * open phase. Then what was worked out for just that span: decays of the modal currents, turn of the ripple.
 */
export const lastStop = 6;
export const lastStopped = 7;
export const stopDecay0 = 8;
export const stopDecay1 = 9;
export const stopTurnRe = 10;
export const stopTurnIm = 11;
/** A span that was left of the part when the lane was entered, s, and the decays over it. */
export const lastSpan = 12;
export const spanDecay0 = 13;
export const spanDecay1 = 14;
export const modal0 = 15; // from here the numbers of the first modal current, from `modalStride` on those of the second
export const modalStride = 18;
export const laneStride = modal0 + 2 * modalStride;
// of a modal current
export const fromHigh = 0; // y = Σ from·i
export const fromLow = 1;
export const fromOpen = 2;
export const toHigh = 3; // i = Σ to·y
export const toLow = 4;
export const toOpen = 5;
/** Before the three: 1, 2, 3 beyond it belong to the + − open phase. */
export const toPhase = 2;
export const rate = 6;
export const full = 7; // e^{−λ·(length of the part)}
export const constant = 8; // A = constant + perEmf·e_z
export const perEmf = 9;
export const slope = 10; // B
export const gainRe = 11;
export const gainIm = 12;
export const drive = 13; // of rails and flats alone
export const rippleDrive = 14;
export const level = 15; // ε = level + toOpen·e_z
export const tilt = 16; // ε' = toOpen·(slope of e_z)
export const inverseRate = 17;

/**
 * What the loop over regular periods needs of each conduction mode in each part
 * of a PWM period, worked out when first met and kept for all sectors of its
 * kind: with the driven phases on their flats these numbers are the same in
 * every turn. Only what hangs on a part's length follows the duty.
 */
export class LaneTable {
	readonly numbers = new Float64Array(kinds * mostLanes * laneStride);
	/** The lanes' modes, by lane number (offset / laneStride). */
	readonly modes: ConductionMode[] = new Array<ConductionMode>(kinds * mostLanes);
	/** Lane number of kind, part and mode, −1 where not yet worked out. */
	private readonly index = new Int16Array(kinds * mostParts * modeCodes);
	private readonly parts = new Uint8Array(kinds * mostLanes);
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
		const { made, counts, numbers, parts } = this;
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
		for (let lane = first; lane < first + (counts[kind] as number); lane++) {
			const p = lane * laneStride + modal0;
			const length = lengths[parts[lane] as number] as number;
			const modalCount = numbers[lane * laneStride + modals] as number;
			for (let m = 0; m < modalCount; m++) {
				numbers[p + m * modalStride + full] = decay((numbers[p + m * modalStride + rate] as number) * length);
			}
		}
	}

	/** Offset in `numbers` of the lane for a part and three ties, −1 where there is no room for another. */
	at(part: number, tieHigh: number, tieLow: number, tieOpen: number): number {
		const place = (this.kind * mostParts + part) * modeCodes + tieHigh + 5 * tieLow + 25 * tieOpen;
		const lane = this.index[place] as number;
		return lane >= 0 ? lane * laneStride : this.add(part, tieHigh as Tie, tieLow as Tie, tieOpen as Tie);
	}

	private add(part: number, tieHigh: Tie, tieLow: Tie, tieOpen: Tie): number {
		const { numbers: lanes, circuit, emf, kind, counts } = this;
		if (counts[kind] === mostLanes) return -1;
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
		this.modes[number] = mode;
		this.parts[number] = part;
		this.index[(kind * mostParts + part) * modeCodes + modeCode(tieHigh, tieLow, tieOpen)] = number;
		const lane = number * laneStride;
		lanes[lane + lastStop] = 0;
		lanes[lane + lastSpan] = Number.NEGATIVE_INFINITY;

		const eHigh = emf.level[high] as number;
		const eLow = emf.level[low] as number;
		const weight = (k: number): number => (k === 0 ? mode.neutralEmfA : k === 1 ? mode.neutralEmfB : mode.neutralEmfC);
		lanes[lane + modals] = mode.modalCount;
		lanes[lane + neutral] = mode.neutral + weight(high) * eHigh + weight(low) * eLow;
		lanes[lane + neutralEmf] = weight(third);
		lanes[lane + neutralRipple] = mode.neutralRipple;
		lanes[lane + neutralModal] = mode.neutral0;
		lanes[lane + lowRail] = mode.lowRail0;
		for (const m of [0, 1] as const) {
			const p = lane + modal0 + m * modalStride;
			const uHigh = mode.u(high, m);
			const uLow = mode.u(low, m);
			const uOpen = mode.u(third, m);
			const lambda = m === 0 ? mode.rate0 : mode.rate1;
			const flats = uHigh * eHigh + uLow * eLow;
			const rise = uOpen * (emf.slope[third] as number);
			const push = (m === 0 ? mode.drive0 : mode.drive1) - flats;
			lanes[p + fromHigh] = uHigh * (circuit.inductance[high] as number);
			lanes[p + fromLow] = uLow * (circuit.inductance[low] as number);
			lanes[p + fromOpen] = uOpen * (circuit.inductance[third] as number);
			lanes[p + toHigh] = uHigh;
			lanes[p + toLow] = uLow;
			lanes[p + toOpen] = uOpen;
			lanes[p + rate] = lambda;
			lanes[p + inverseRate] = 1 / lambda;
			lanes[p + full] = m < mode.modalCount ? decay(lambda * (this.lengths[part] as number)) : 0;
			lanes[p + drive] = push;
			lanes[p + slope] = -rise / lambda;
			lanes[p + constant] = (push + rise / lambda) / lambda;
			lanes[p + perEmf] = -uOpen / lambda;
			lanes[p + gainRe] = m === 0 ? mode.rippleRe0 : mode.rippleRe1;
			lanes[p + gainIm] = m === 0 ? mode.rippleIm0 : mode.rippleIm1;
			lanes[p + rippleDrive] = m === 0 ? mode.rippleDrive0 : mode.rippleDrive1;
			lanes[p + level] = flats;
			lanes[p + tilt] = rise;
		}
		return lane;
	}
}
