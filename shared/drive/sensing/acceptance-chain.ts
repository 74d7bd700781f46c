import erfc from '@stdlib/math-base-special-erfc';
import { realZero } from '../../maths/real-zero.ts';
import { faint, type KeptReadings } from './kept-readings.ts';

/** Below this probability that nothing has been accepted yet, the rest of the sector is not followed. */
const negligible = 1e-30;

/**
 * The exact probability with which one sector's crossing is accepted at each of
 * its readings, given the noise-free comparator inputs: readings are
 * independent, each says "crossed" with a probability from the normal
 * distribution, and the filter accepts when K of the last W say so.
 *
 * The state is the last W − 1 votes (at least one, since the newest vote is
 * also the comparator's state under hysteresis), as bits, newest lowest; all
 * states of a sector not yet accepted have fewer than K votes in reach.
 */
export class AcceptanceChain {
	/** Probability that nothing has been accepted so far. */
	waiting = realZero;
	/** Probabilities of an acceptance before −margin, after +margin and in between. */
	early = realZero;
	late = realZero;
	within = realZero;
	/**
	 * Of the reading that `step` takes in: the probability of "crossed" where the vote before was "not crossed", its
	 * complement, and the same two where it was "crossed" (equal without hysteresis). Complements are worked out by
	 * themselves: 1 − p would lose the tail that a missed crossing hangs on.
	 */
	fromNot = realZero;
	notFromNot = realZero;
	fromCrossed = realZero;
	notFromCrossed = realZero;
	/** What `weigh` makes them of: noise (V) above the first gives "above" where the comparator was not, above the second keeps it there. */
	up = realZero;
	stay = realZero;
	/** Noise of a reading, V standard deviation. */
	sigma = realZero;
	/** Where set, takes the margins of every reading, until it has enough of a sector. */
	keep: KeptReadings | undefined;
	private votes = 1;
	private history = 1;
	private mask = 1;
	private window = 1;
	private states = new Float64Array(2);
	private next = new Float64Array(2);

	/** @param majorityWindow W, up to `longestWindow` */
	load(majorityWindow: number, majorityVotes: number): void {
		this.votes = majorityVotes;
		this.history = Math.max(1, majorityWindow - 1);
		this.window = (1 << majorityWindow) - 1;
		const size = 1 << this.history;
		this.mask = size - 1;
		if (this.states.length !== size) {
			this.states = new Float64Array(size);
			this.next = new Float64Array(size);
		}
	}

	/** A sector begins: no votes, comparator "not crossed". */
	open(): void {
		this.states.fill(0);
		this.states[0] = 1;
		this.waiting = 1;
		this.early = this.late = this.within = 0;
	}

	/** Whether the rest of the sector can still change a figure. */
	get undecided(): boolean {
		return this.waiting > negligible || this.keep?.open === true;
	}

	/** Probability that the sector times out. */
	get missed(): number {
		return this.waiting > negligible ? this.waiting : 0;
	}

	/** Works out the reading's probabilities from its margins. @param rising whether "above" means "crossed" */
	weigh(rising: boolean): void {
		const { sigma } = this;
		// in standard deviations; the tail far out is far below what is followed
		const up = deviations(this.up, sigma);
		const above = up > faint ? 0 : upperTail(up);
		const below = up < -faint ? 0 : upperTail(-up);
		if (this.up === this.stay) {
			this.fromNot = this.fromCrossed = rising ? above : below;
			this.notFromNot = this.notFromCrossed = rising ? below : above;
			return;
		}
		const stay = deviations(this.stay, sigma);
		const stays = upperTail(stay);
		const falls = upperTail(-stay);
		this.fromNot = rising ? above : falls;
		this.notFromNot = rising ? below : stays;
		this.fromCrossed = rising ? stays : below;
		this.notFromCrossed = rising ? falls : above;
	}

	/**
	 * One reading, whose probabilities `weigh` has worked out.
	 * @param timing −1, 0, +1: an acceptance here would be early, within the margin, late
	 */
	step(timing: -1 | 0 | 1): void {
		const { states, next, mask, window, votes, fromNot, notFromNot, fromCrossed, notFromCrossed } = this;
		// far from the threshold, with "not crossed" alone behind: nothing changes
		if (fromNot === 0 && states[0] === this.waiting) return;
		const size = states.length;
		for (let s = 0; s < size; s++) next[s] = 0;
		let accepted = 0;
		for (let s = 0; s < size; s++) {
			const weight = states[s] as number;
			if (weight === 0) continue;
			const crossed = (s & 1) === 1;
			const seen = (s << 1) | 1;
			const yes = weight * (crossed ? fromCrossed : fromNot);
			if (count(seen & window) >= votes) accepted += yes;
			else next[seen & mask] = (next[seen & mask] as number) + yes;
			const no = (s << 1) & mask;
			next[no] = (next[no] as number) + weight * (crossed ? notFromCrossed : notFromNot);
		}
		this.states = next;
		this.next = states;
		if (timing < 0) this.early += accepted;
		else if (timing > 0) this.late += accepted;
		else this.within += accepted;
		let waiting = 0;
		for (let s = 0; s < size; s++) waiting += next[s] as number;
		this.waiting = waiting;
	}
}

/** Longest majority window whose chain is followed (2^(W−1) states). */
export const longestWindow = 11;

/** P(N(0, 1) > z), by the complementary error function: no digits lost in the tail. */
export function upperTail(z: number): number {
	// most readings are far from the threshold: there it is 0 or 1 to the last bit
	if (z > 38.6) return 0;
	if (z < -8.5) return 1;
	return 0.5 * erfc(z * Math.SQRT1_2);
}

/** A margin in standard deviations; without noise all of it or nothing. */
function deviations(margin: number, sigma: number): number {
	if (sigma > 0) return margin / sigma;
	return margin >= 0 ? Infinity : -Infinity;
}

function count(bits: number): number {
	let n = 0;
	for (let b = bits; b !== 0; b &= b - 1) n++;
	return n;
}
