import { realZero } from '../maths/real-zero.ts';
import { type Circuit, radian } from './circuit.ts';
import type { Drive } from './drive.ts';

/** The firmware's clock in the closed loop: from accepted crossings to the time of the next commutation. */
export class CommutationTimer {
	/** T60: what the firmware takes a sector to last, s. */
	estimate = realZero;
	/** t_z: when the latest crossing was acted on, or would have been had it not been missed, s. */
	crossing = realZero;
	/** Of the present sector: the commutation that ends it as things stand, and when it times out, s. */
	commutation = realZero;
	timeout = realZero;
	/** Nothing was accepted in it, or too late. */
	missed = false;
	private drive!: Drive;
	/** s. */
	private compensation = realZero;
	/** The latest intervals between crossings, s; those to come count as ideal. */
	private intervals = new Float64Array(0);
	private intervalCount = 0;

	/** @param compensation delay that the firmware subtracts, s @param crossing t_z of the last sector before the loop, s */
	start(drive: Drive, circuit: Circuit, compensation: number, crossing: number): void {
		const ideal = (60 * radian) / circuit.omega;
		this.drive = drive;
		this.compensation = compensation;
		this.intervals = new Float64Array(drive.detection.intervalsAveraged).fill(ideal);
		this.intervalCount = 0;
		this.estimate = ideal;
		this.crossing = crossing;
	}

	/** The latest commutation was at `begin`, s. */
	openSector(begin: number): void {
		this.timeout = begin + this.drive.detection.timeout * this.estimate;
		this.commutation = this.timeout;
		this.missed = true;
	}

	/** How long readings are ignored after a commutation, s. */
	get blanking(): number {
		return (this.drive.detection.blanking / 60) * this.estimate;
	}

	/** From an acceptance to the commutation it leads to, s; below 0: at once. */
	get wait(): number {
		return this.drive.sensing.comparator.latency + this.delay;
	}

	/** A crossing is accepted at a reading taken at `time`, s. */
	accept(time: number): void {
		const { intervals } = this;
		const reached = time + this.drive.sensing.comparator.latency;
		// an acceptance whose t_z falls after the timeout is void
		if (reached > this.timeout) return;
		this.missed = false;
		intervals[this.intervalCount++ % intervals.length] = reached - this.crossing;
		this.crossing = reached;
		this.estimate = mean(intervals);
		this.commutation = reached + Math.max(0, this.delay);
	}

	/** It commutates. */
	closeSector(): void {
		if (this.missed) this.crossing = this.commutation - this.estimate / 2;
	}

	/** From t_z to the commutation, s. */
	private get delay(): number {
		return (this.estimate * (30 - this.drive.detection.advance)) / 60 - this.compensation;
	}
}

function mean(values: Float64Array): number {
	let sum = 0;
	// by place: the iterator would put each on the heap
	for (let place = 0; place < values.length; place++) sum += values[place] as number;
	return sum / values.length;
}
