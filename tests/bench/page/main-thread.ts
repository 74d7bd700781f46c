import type { Browser, Page } from 'playwright-core';

/** One task of the page's main thread. */
export interface MainTask {
	/** Milliseconds on the clock; what it waited for a processor counts. */
	readonly wall: number;
	/** Milliseconds of processor time. */
	readonly processor: number;
}

interface TraceEvent {
	readonly name: string;
	readonly ph: string;
	readonly pid: number;
	readonly tid: number;
	readonly ts: number;
	readonly dur?: number;
	readonly tdur?: number;
	readonly args?: {
		readonly name?: string;
		readonly data?: { readonly frames?: readonly { readonly url: string; readonly processId?: number }[] };
	};
}

/** The tasks of the page's main thread while `work` is done, longest first, from the browser's own trace. */
export async function mainThreadTasks(
	browser: Browser,
	page: Page,
	work: () => Promise<void>,
): Promise<readonly MainTask[]> {
	await browser.startTracing(page, {
		categories: ['toplevel', 'devtools.timeline', '__metadata', 'disabled-by-default-devtools.timeline'],
	});
	const marker = `measured ${Math.random()}`;
	await page.evaluate((name) => console.timeStamp(name), marker);
	await work();
	const trace = JSON.parse((await browser.stopTracing()).toString()) as { readonly traceEvents: readonly TraceEvent[] };
	return tasksIn(trace.traceEvents, marker);
}

/** The thread is that on which the marker was set. */
function tasksIn(events: readonly TraceEvent[], marker: string): readonly MainTask[] {
	const mark = events.find(({ name, args }) => name === 'TimeStamp' && JSON.stringify(args).includes(marker));
	if (!mark) throw new Error('the trace does not hold the page’s main thread');
	return events
		.filter(({ name, pid, tid, ts }) => name === 'RunTask' && pid === mark.pid && tid === mark.tid && ts >= mark.ts)
		.map(({ dur = 0, tdur = 0 }) => ({ wall: dur / 1000, processor: tdur / 1000 }))
		.sort((one, other) => other.wall - one.wall);
}
