import { decayInPlace } from '../maths/decay.ts';
import { realZero } from '../maths/real-zero.ts';
import { turnInPlace } from '../maths/small-angle.ts';
import type { Circuit } from './circuit.ts';
import type { ConductionMode } from './conduction-mode.ts';
import * as segment from './segment-fields.ts';
import { start, stride } from './segment-fields.ts';

/**
 * The latest segments of a trajectory in a ring buffer, so that a sensing node
 * can be worked out only when it is read, from as far back as still matters.
 */
export class SegmentHistory {
	/** Segments written so far; the newest is `count − 1`. */
	count = 0;
	values = new Float64Array(0);
	modes: ConductionMode[] = [];
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

	/** Offset of segment `index` in `values`. */
	offset(index: number): number {
		return (index & this.mask) * stride;
	}

	mode(index: number): ConductionMode {
		return this.modes[index & this.mask] as ConductionMode;
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
		const { values: v, point, target } = this;
		const slot = this.offset(target);
		const mode = this.mode(target);
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
			const zRe = v[slot + segment.zRe] as number;
			const zIm = v[slot + segment.zIm] as number;
			point[zReAt] = zRe * c - zIm * q;
			point[zImAt] = zRe * q + zIm * c;
		}
		if (circuit.sinusoidal) {
			point[turnAt] = circuit.omega * s;
			turnInPlace(point, turnAt);
			const c = point[turnAt] as number;
			const q = point[turnAt + 1] as number;
			const wRe = v[slot + segment.wRe] as number;
			const wIm = v[slot + segment.wIm] as number;
			point[wReAt] = wRe * c - wIm * q;
			point[wImAt] = wRe * q + wIm * c;
		}
	}

	/** Slot for the next segment. */
	open(mode: ConductionMode): number {
		const lost = this.count - this.mask - 1;
		if (lost >= this.first) {
			// what is to be overwritten ends where the next one begins
			const kept = this.values[this.offset(lost + 1) + start] as number;
			if (kept > (this.values[this.offset(this.count - 1) + start] as number) - this.lookBack) this.grow();
		}
		this.modes[this.count & this.mask] = mode;
		return (this.count & this.mask) * stride;
	}

	/** What was written so far is not followed up: a gap begins. */
	forget(): void {
		this.first = this.count;
	}

	/** Accepts the segment in the open slot. */
	close(): void {
		this.count++;
	}

	copyFrom(other: SegmentHistory): void {
		if (this.mask !== other.mask) this.resize(other.mask + 1);
		const used = Math.min(other.count, other.mask + 1);
		this.values.set(other.values.subarray(0, used * stride));
		for (let i = 0; i < used; i++) this.modes[i] = other.modes[i] as ConductionMode;
		this.count = other.count;
		this.first = other.first;
		this.placedMode = undefined;
		this.lookBack = other.lookBack;
	}

	private resize(size: number): void {
		this.mask = size - 1;
		this.values = new Float64Array(size * stride);
		this.modes = new Array<ConductionMode>(size);
	}

	private grow(): void {
		const { values, modes, mask, oldest, count } = this;
		this.resize(2 * (mask + 1));
		for (let index = oldest; index < count; index++) {
			const from = (index & mask) * stride;
			this.values.set(values.subarray(from, from + stride), this.offset(index));
			this.modes[index & this.mask] = modes[index & mask] as ConductionMode;
		}
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
const turnAt = 7; // and 8
const rippleTurnAt = 9; // and 10

/** Segments (0.8 MB) that one run's history may leave allocated for the next. */
const largestKept = 4096;
