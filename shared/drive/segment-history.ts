import type { ConductionMode } from './conduction-mode.ts';
import { stride } from './segment-fields.ts';

/**
 * The latest segments of a trajectory in a ring buffer, so that a sensing node
 * can be worked out only when it is read, from as far back as still matters.
 */
export class SegmentHistory {
	/** Segments written so far; the newest is `count − 1`. */
	count = 0;
	values = new Float64Array(0);
	modes: ConductionMode[] = [];
	private mask = 0;

	/** Empties it and makes room for at least `capacity` segments. */
	clear(capacity: number): void {
		this.count = 0;
		if (this.mask + 1 >= capacity) return;
		let size = 64;
		while (size < capacity) size *= 2;
		this.mask = size - 1;
		this.values = new Float64Array(size * stride);
		this.modes = new Array<ConductionMode>(size);
	}

	/** Offset of segment `index` in `values`. */
	offset(index: number): number {
		return (index & this.mask) * stride;
	}

	mode(index: number): ConductionMode {
		return this.modes[index & this.mask] as ConductionMode;
	}

	/** Index of the oldest segment still held. */
	get oldest(): number {
		return Math.max(0, this.count - this.mask - 1);
	}

	/** Slot for the next segment. */
	open(mode: ConductionMode): number {
		this.modes[this.count & this.mask] = mode;
		return (this.count & this.mask) * stride;
	}

	/** Accepts the segment in the open slot. */
	close(): void {
		this.count++;
	}

	copyFrom(other: SegmentHistory): void {
		if (this.mask !== other.mask) {
			this.mask = other.mask;
			this.values = new Float64Array(other.values.length);
			this.modes = new Array<ConductionMode>(other.mask + 1);
		}
		this.values.set(other.values);
		for (let i = 0; i < other.modes.length; i++) this.modes[i] = other.modes[i] as ConductionMode;
		this.count = other.count;
	}
}
