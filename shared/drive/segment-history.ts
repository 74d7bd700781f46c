import { realZero } from '../maths/real-zero.ts';
import type { ConductionMode } from './conduction-mode.ts';
import { ReadingPoint } from './reading-point.ts';
import { Segment } from './segment.ts';

/**
 * The latest segments of a trajectory in a ring buffer, so that a sensing node
 * can be worked out only when it is read, from as far back as still matters.
 */
export class SegmentHistory {
	/** Segments written so far; the newest is `count − 1`. */
	count = 0;
	private segments: Segment[] = [];
	/** Where nodes are read. */
	readonly point = new ReadingPoint(this);
	private mask = -1;
	private lookBack = realZero;
	/** Index of the first segment without a gap up to now. */
	private first = 0;

	/**
	 * Empties it.
	 * @param lookBack how far back segments stay readable, s; room is made as that needs it
	 */
	clear(lookBack: number): void {
		this.count = 0;
		this.first = 0;
		this.point.reset();
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
		this.point.reset();
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

/** Segments (2 MB) that one run's history may leave allocated for the next. */
const largestKept = 4096;
