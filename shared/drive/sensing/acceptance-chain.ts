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
 * The state is the last W − 1 votes (at least two, so that the newest, which is
 * also the comparator's state under hysteresis, is not the one that falls out
 * next), as bits, newest lowest; all states of a sector not yet accepted have
 * fewer than K votes in reach.
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
	private window = 0;
	private votes = 0;
	private states = new Float64Array(0);
	private next = new Float64Array(0);
	/** Of each state: 1 where one more "crossed" accepts. */
	private accepts = new Uint8Array(0);

	/** @param majorityWindow W, up to `longestWindow` */
	load(majorityWindow: number, majorityVotes: number): void {
		if (majorityWindow === this.window && majorityVotes === this.votes) return;
		this.window = majorityWindow;
		this.votes = majorityVotes;
		const size = 1 << Math.max(2, majorityWindow - 1);
		const reach = (1 << majorityWindow) - 1;
		this.states = new Float64Array(size);
		this.next = new Float64Array(size);
		this.accepts = Uint8Array.from({ length: size }, (_, s) =>
			count(((s << 1) | 1) & reach) >= majorityVotes ? 1 : 0,
		);
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

	/** Whether a reading that says "not crossed" for certain changes nothing, nor need be kept. */
	get settled(): boolean {
		return this.states[0] === this.waiting && this.keep === undefined;
	}

	/** Probability that the sector times out. */
	get missed(): number {
		return this.waiting > negligible ? this.waiting : 0;
	}

	/** Works out the reading's probabilities from its margins. @param rising whether "above" means "crossed" */
	weigh(rising: boolean): void {
		const { sigma } = this;
		const up = deviations(this.up, sigma);
		const above = heardTail(up);
		const below = heardTail(-up);
		if (this.up === this.stay) {
			this.fromNot = this.fromCrossed = rising ? above : below;
			this.notFromNot = this.notFromCrossed = rising ? below : above;
			return;
		}
		const stay = deviations(this.stay, sigma);
		const stays = heardTail(stay);
		const falls = heardTail(-stay);
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
		const { states, next, accepts, fromNot, notFromNot, fromCrossed, notFromCrossed } = this;
		// far from the threshold, with "not crossed" alone behind: nothing changes
		if (fromNot === 0 && states[0] === this.waiting) return;
		const half = states.length >> 1;
		let accepted = 0;
		let waiting = 0;
		// two states that differ in the oldest vote alone lead to the same two
		for (let s = 0; s < half; s++) {
			const without = states[s] as number;
			const withOldest = states[s + half] as number;
			const both = without + withOldest;
			if (both === 0) {
				next[2 * s] = next[2 * s + 1] = 0;
				continue;
			}
			const crossed = (s & 1) === 1;
			const yes = crossed ? fromCrossed : fromNot;
			const no = both * (crossed ? notFromCrossed : notFromNot);
			let more = 0;
			if (accepts[s] === 1) accepted += without * yes;
			else more = without * yes;
			if (accepts[s + half] === 1) accepted += withOldest * yes;
			else more += withOldest * yes;
			next[2 * s] = no;
			next[2 * s + 1] = more;
			waiting += no + more;
		}
		this.states = next;
		this.next = states;
		this.waiting = waiting;
		if (timing < 0) this.early += accepted;
		else if (timing > 0) this.late += accepted;
		else this.within += accepted;
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

/** The same, 0 where it is far below what is followed. */
const heardTail = (z: number): number => (z > faint ? 0 : upperTail(z));

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
