import { copyFileSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, onTestFinished, test } from 'vitest';
import { axe } from './ask-question.ts';
import { builtPage, restsOn, runStudy } from './open-page.ts';

const built = builtPage();
const goTo = (page: Page, view: string) => page.getByRole('link', { name: view, exact: true }).click();
const saveButton = (page: Page) => page.getByRole('button', { name: 'Save the report' });
const said = (page: Page) => page.locator('#report-said').textContent();
const plain = (words: string) => words.replace(/\s+/g, ' ').trim();
/** Words of all elements that a selector finds. */
const wordsOf = async (page: Page, selector: string): Promise<readonly string[]> =>
	(await page.locator(selector).allTextContents()).map(plain);

/** Saves the report and gives where it lies, as a file that a browser opens. */
async function savedReport(page: Page): Promise<string> {
	const [download] = await Promise.all([page.waitForEvent('download', { timeout: 50_000 }), saveButton(page).click()]);
	expect(download.suggestedFilename()).toBe('24-v-fan-report.html');
	const folder = mkdtempSync(join(tmpdir(), 'report-'));
	onTestFinished(() => rmSync(folder, { recursive: true }));
	copyFileSync(await download.path(), join(folder, 'report.html'));
	return join(folder, 'report.html');
}

/** Opens a file by itself, with scripts or without. */
async function openFile(from: Page, file: string, javaScriptEnabled: boolean): Promise<Page> {
	const context = await from.context().browser()?.newContext({ javaScriptEnabled, offline: true });
	if (!context) throw new Error('no browser');
	onTestFinished(() => context.close());
	const page = await context.newPage();
	await page.goto(pathToFileURL(file).href);
	return page;
}

test('the report saved from the page says what the page says, is read without scripts, names what was not computed, and computes every digit again', {
	timeout: 180_000,
}, async () => {
	const { page } = await built.open();
	await runStudy(page, 24, 'review');
	await goTo(page, 'What we sign');
	expect(await saveButton(page).isEnabled()).toBe(true);
	expect(await axe(page)).toEqual([]);
	const digest = await restsOn(page, 'Result digest');
	const inFull = await wordsOf(page, '.verdicts .rest');
	const verdicts = await wordsOf(page, '.verdicts .decision td');
	const comparison = inFull.at(-1);
	await page.getByText('Table: drives that pass each point').click();
	const passing = await wordsOf(page, '.behind tbody td');
	const file = await savedReport(page);
	await expect.poll(() => said(page)).toBe('Saved as 24-v-fan-report.html.');

	const still = await openFile(page, file, false);
	for (const verdict of inFull.slice(0, 2)) {
		expect(plain((await wordsOf(still, '#verdict .verdicts li')).join(' '))).toContain(verdict.split('. ')[0]);
	}
	expect(await wordsOf(still, '#verdict .verdicts b')).toEqual(verdicts);
	expect(await wordsOf(still, '#verdict > p')).toContain(comparison);
	// as many rows an operating point, and the total beneath
	const reported = await wordsOf(still, '#verdict tbody td');
	expect(reported.filter((words) => / of 24$/.test(words))).toEqual(passing.filter((words) => / of 24$/.test(words)));
	expect(await wordsOf(still, '#reproduce dd code')).toContain(digest);
	expect(await wordsOf(still, 'section.absent .not-computed strong')).toEqual(
		Array.from({ length: 5 }, () => 'Not computed for this report.'),
	);
	expect(await still.locator('.pictures svg').count()).toBeGreaterThan(6);
	expect((await wordsOf(still, '#cautions'))[0]).toMatch(/simulated estimates.*dangerous.*qualified practice decide/);

	const live = await openFile(page, file, true);
	await live.getByRole('button', { name: 'Compute it again here' }).click();
	const outcome = live.locator('#again .said');
	await outcome.filter({ hasText: /./ }).waitFor({ timeout: 60_000 });
	expect(await outcome.textContent()).toMatch(/^Every digit agrees: [\d\s]+ figures computed again\.$/);
});

test('a box adds its calculation to the report, which is made without a network as well', {
	timeout: 180_000,
}, async () => {
	const { page } = await built.open();
	await runStudy(page, 12, 'boxes');
	await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
	await page.context().setOffline(true);
	await page.reload();
	await goTo(page, 'Keep and share');
	await page.getByLabel('Budgets').check();
	const file = await savedReport(page);
	const report = await openFile(page, file, false);
	expect(await wordsOf(report, 'section.absent h2')).toHaveLength(4);
	expect(await report.locator('#budgets table').count()).toBeGreaterThan(0);
	expect(readFileSync(file, 'utf8')).not.toMatch(/<script[^>]+src=|<link[^>]+href="http/);
});

test('without figures, after an edit and after a run that was stopped there is no report, and it is said why', async () => {
	const { page } = await built.open({
		mayFail: true,
		prepare: (page) => page.route(/engine-worker.*\.js$/, (route) => route.abort()),
	});
	await goTo(page, 'What we sign');
	expect(await said(page)).toBe('There are no figures yet.');
	expect(await saveButton(page).isDisabled()).toBe(true);

	const other = (await built.open()).page;
	await goTo(other, 'What we sign');
	await other.getByLabel('Drives to build').fill('100000');
	await other.getByRole('button', { name: 'Run', exact: true }).click();
	await expect.poll(() => said(other), { timeout: 20_000 }).toBe('The run is still going on.');
	await other.getByRole('button', { name: 'Cancel' }).click();
	await expect.poll(() => said(other)).toBe('The run was stopped: only whole results are kept.');
	await runStudy(other, 6);
	expect(await said(other)).toBe('');
	await other.getByLabel('Seed').fill('other');
	expect(await said(other)).toMatch(/^The figures on show are not those of the inputs as they are now/);
	expect(await saveButton(other).isDisabled()).toBe(true);
});

test('a report that is being made can be stopped: nothing is saved, and the next one is made', {
	timeout: 120_000,
}, async () => {
	const { page } = await built.open();
	await runStudy(page, 400);
	await goTo(page, 'What we sign');
	await page.getByLabel('Grades').check();
	await saveButton(page).click();
	await page.getByRole('progressbar', { name: 'Drives simulated for the report' }).waitFor({ timeout: 40_000 });
	await page.locator('.save-report').getByRole('button', { name: 'Stop' }).click();
	await expect.poll(() => said(page)).toBe('Stopped: no report was saved.');
	await page.getByLabel('Grades').uncheck();
	await savedReport(page);
});
