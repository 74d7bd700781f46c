import { execFileSync } from 'node:child_process';
import type { Browser, Page } from 'playwright-core';
import { startStudy, studyEnd } from './open-built-page.ts';

/** Megabytes after so many runs. */
export interface Weighed {
	readonly runs: number;
	/** Objects and buffers that the page's own thread holds, after a collection. */
	readonly held: number;
	/** The browser's processes that run pages and their workers, as the system counts them; NaN where it does not tell. */
	readonly resident: number;
}

/** What the page holds after each tenth of so many studies of `units` drives, each with its own seed. */
export async function memoryOverRuns(
	browser: Browser,
	page: Page,
	runs: number,
	units: number,
): Promise<readonly Weighed[]> {
	const devtools = await page.context().newCDPSession(page);
	const weighed: Weighed[] = [];
	for (let run = 1; run <= runs; run += 1) {
		await startStudy(page, units, `memory ${run}`);
		await studyEnd(page);
		if (run % Math.ceil(runs / 10) > 0) continue;
		await devtools.send('HeapProfiler.collectGarbage');
		// records that the page has let go of by this are told to its workers
		await page.waitForTimeout(200);
		const usage = (await devtools.send('Runtime.getHeapUsage')) as { usedSize: number; backingStorageSize?: number };
		const held = (usage.usedSize + (usage.backingStorageSize ?? 0)) / 1e6;
		weighed.push({ runs: run, held, resident: await residentMegabytes(browser) });
	}
	return weighed;
}

async function residentMegabytes(browser: Browser): Promise<number> {
	const devtools = await browser.newBrowserCDPSession();
	try {
		const { processInfo } = await devtools.send('SystemInfo.getProcessInfo');
		const pages = processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => String(id));
		const kilobytes = execFileSync('ps', ['-o', 'rss=', '-p', pages.join(',')], { encoding: 'utf8' });
		return kilobytes.split('\n').reduce((sum, line) => sum + Number(line), 0) / 1000;
	} catch {
		return Number.NaN; // no ps on this system
	} finally {
		await devtools.detach();
	}
}
