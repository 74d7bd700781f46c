import { decayInPlace } from '../maths/decay.ts';
import { realZero } from '../maths/real-zero.ts';
import { turnInPlace } from '../maths/turn.ts';
import type { Circuit } from './circuit.ts';
import type { ConductionMode } from './conduction-mode.ts';
import { Segment } from './segment.ts';

/**
 * The latest segments of a trajectory in a ring buffer, so that a sensing node
 * can be worked out only when it is read, from as far back as still matters.
 */
export class SegmentHistory {
	/** Segments written so far; the newest is `count − 1`. */
	count = 0;
	private segments: Segment[] = [];
	/** The reading point: its segment, and by the names below its time in it and what `place` worked out. */
	target = 0;
	readonly point = new Float64Array(11);
	private mask = -1;
	private lookBack = realZero;
	/** Where `place` was last in its segment, s, and in which mode. */
	private placedAt = Number.NaN;
	private placedMode: ConductionMode | undefined;
	/** Index of the first segment without a gap up to now. */
	private first = 0;

	/**
	 * Empties it.
	 * @param lookBack how far back segments stay readable, s; room is made as that needs it
	 */
	clear(lookBack: number): void {
		this.count = 0;
		this.first = 0;
		this.placedMode = undefined;
		this.lookBack = lookBack;
		// kept from run to run, unless one drive needed far more than others do
		if (this.mask < 0 || this.mask >= largestKept) this.resize(64);
	}

	/** Segment `index`; the one after the newest is that in hand. */
	at(index: number): Segment {
		return this.segments[index & this.mask] as Segment;
	}

	/** Index of the oldest segment from which on all are held. */
	get oldest(): number {
		return Math.max(this.first, this.count - this.mask - 1);
	}

	/** Puts the reading point `s` seconds into segment `index`. */
	place(circuit: Circuit, index: number, s: number): void {
		this.target = index;
		this.point[secondsAt] = s;
		this.placePoint(circuit);
	}

	/** Works out what every node needs at the reading point, once its segment and `secondsAt` are set: the phasors there and e^{−λ_m s}. */
	placePoint(circuit: Circuit): void {
		const { point } = this;
		const segment = this.at(this.target);
		const { mode } = segment;
		const s = point[secondsAt] as number;
		// period after period is read at the same place
		const same = s === this.placedAt && mode === this.placedMode;
		if (!same) {
			this.placedAt = s;
			this.placedMode = mode;
			point[decayAt0] = mode.rate0 * s;
			decayInPlace(point, decayAt0);
			point[decayAt1] = 0;
			if (mode.modalCount > 1) {
				point[decayAt1] = mode.rate1 * s;
				decayInPlace(point, decayAt1);
			}
		}
		if (circuit.rippleAmplitude !== 0) {
			if (!same) {
				point[rippleTurnAt] = circuit.rippleOmega * s;
				turnInPlace(point, rippleTurnAt);
			}
			const c = point[rippleTurnAt] as number;
			const q = point[rippleTurnAt + 1] as number;
			const zRe = segment.zRe;
			const zIm = segment.zIm;
			point[zReAt] = zRe * c - zIm * q;
			point[zImAt] = zRe * q + zIm * c;
		}
		if (circuit.sinusoidal) {
			if (!same) {
				point[rotorTurnAt] = circuit.omega * s;
				turnInPlace(point, rotorTurnAt);
			}
			const c = point[rotorTurnAt] as number;
			const q = point[rotorTurnAt + 1] as number;
			const wRe = segment.wRe;
			const wIm = segment.wIm;
			point[wReAt] = wRe * c - wIm * q;
			point[wImAt] = wRe * q + wIm * c;
		}
	}

	/** The next segment, to be filled in. */
	open(mode: ConductionMode): Segment {
		const lost = this.count - this.mask - 1;
		if (lost >= this.first) {
			// what is to be overwritten ends where the next one begins
			if (this.at(lost + 1).start > this.at(this.count - 1).start - this.lookBack) this.grow();
		}
		const segment = this.at(this.count);
		segment.mode = mode;
		return segment;
	}

	/** What was written so far is not followed up: a gap begins. */
	forget(): void {
		this.first = this.count;
	}

	/** Back to `count` segments; what the later ones were written over is gone. */
	takeBack(count: number): void {
		this.first = Math.max(this.first, this.count - this.mask);
		this.count = count;
	}

	/** Takes the segment in hand. */
	close(): void {
		this.count++;
	}

	copyFrom(other: SegmentHistory): void {
		if (this.mask !== other.mask) this.resize(other.mask + 1);
		for (let index = other.oldest; index < other.count; index++) this.at(index).copyFrom(other.at(index));
		this.count = other.count;
		this.first = other.first;
		this.placedMode = undefined;
		this.lookBack = other.lookBack;
	}

	private resize(size: number): void {
		this.mask = size - 1;
		this.segments = Array.from({ length: size }, () => new Segment());
	}

	private grow(): void {
		const { segments, mask, oldest, count } = this;
		this.resize(2 * (mask + 1));
		for (let index = oldest; index < count; index++)
			this.segments[index & this.mask] = segments[index & mask] as Segment;
	}
}

/** Places in `point`. */
export const zReAt = 0;
export const zImAt = 1;
export const wReAt = 2;
export const wImAt = 3;
export const decayAt0 = 4;
export const decayAt1 = 5;
export const secondsAt = 6;
const rotorTurnAt = 7; // and 8
const rippleTurnAt = 9; // and 10

/** Segments (2 MB) that one run's history may leave allocated for the next. */
const largestKept = 4096;
