import type { Spread } from '../spread.ts';
import type { Weighed } from './memory-growth.ts';

/** How much is measured; fewer only to try the bench itself. */
export interface PageBenchSize {
	/** Visits, of which each is a first one. */
	readonly visits: number;
	readonly edits: number;
	/** Drives of the long run. */
	readonly units: number;
	/** Studies one after the other, whose memory is weighed; in the first half of them the browser still compiles what it now finds is often called. */
	readonly runs: number;
	/** Drives of each of those runs. */
	readonly unitsPerRun: number;
}

/** What the bench finds out about the built page. Times are in milliseconds. */
export interface PageBenchResult {
	readonly size: PageBenchSize;
	/** From the load event, and from the start of the navigation, to the first sentence with figures. */
	readonly firstAnswer: Spread;
	readonly firstAnswerFromStart: Spread;
	/** From a key typed to the picture of the edited scenario. */
	readonly preview: Spread;
	/** Longest of the main thread's tasks while the drives ran: on the clock, and by processor time. */
	readonly longestTask: number;
	readonly longestTaskProcessor: number;
	readonly tasks: number;
	/** Kilobytes gzipped. */
	readonly initialScript: number;
	readonly memory: readonly Weighed[];
}

/** What the page is to keep within. */
export const pageLimits = {
	firstAnswer: 1000,
	preview: 200,
	longestTask: 50,
	initialScript: 120,
	held: 0.05,
	resident: 0.15,
};

/** Growth of some memory between two weighings, as a share of the earlier: flat is about 0. */
export const memoryGrowth = (from: Weighed, to: Weighed, of: 'held' | 'resident'): number => to[of] / from[of] - 1;
