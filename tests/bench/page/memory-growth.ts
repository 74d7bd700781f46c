import { execFileSync } from 'node:child_process';
import type { Browser, Page } from 'playwright-core';
import { type PageThread, pageThreads } from '../../end-to-end/page-threads.ts';
import { startStudy, studyEnd } from './open-built-page.ts';

/** Megabytes after so many runs. */
export interface Weighed {
	readonly runs: number;
	/** Objects and buffers that the page's threads hold, its workers' among them, after a collection. */
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
	const weighed: Weighed[] = [];
	const threads = await pageThreads(browser, page);
	for (let run = 1; run <= runs; run += 1) {
		await startStudy(page, units, `memory ${run}`);
		await studyEnd(page);
		if (run % Math.ceil(runs / 10) > 0) continue;
		weighed.push({ runs: run, held: await heldMegabytes(page, threads), resident: await residentMegabytes(browser) });
	}
	return weighed;
}

/** The least of three readings: what one collection frees may free more in the next, in the page as in its workers. */
async function heldMegabytes(page: Page, threads: readonly PageThread[]): Promise<number> {
	const readings: number[] = [];
	for (let reading = 0; reading < 3; reading += 1) {
		let bytes = 0;
		for (const thread of threads) bytes += await thread.held();
		readings.push(bytes / 1e6);
		// charts out of view are drawn, and the engine is told of the units that the page let go of
		await page.waitForTimeout(500);
	}
	return Math.min(...readings);
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
