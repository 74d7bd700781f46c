import { expect, test } from 'vitest';
import { builtPage, restsOn, runStudy } from './open-page.ts';

const built = builtPage();

test('after the first visit the page works without a network: it loads, simulates, draws and opens every view', {
	timeout: 120_000,
}, async () => {
	const { page } = await built.open();
	await runStudy(page, 24, 'there');
	const digest = await restsOn(page, 'Result digest');
	await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
	await page.context().setOffline(true);
	await page.goto(`${built.address()}#which-choice`);
	await page.reload();
	await runStudy(page, 24, 'there');
	expect(await restsOn(page, 'Result digest')).toBe(digest);
	await page.waitForFunction(() => document.querySelectorAll('.chart-host svg').length === 5);
	await page.getByRole('link', { name: 'One drive' }).click();
	await page.locator('.waveform-picture').waitFor({ timeout: 40_000 });
	await page.getByRole('link', { name: 'Keep and share' }).click();
	await page.getByRole('button', { name: 'Keep in this browser' }).waitFor();
});

test('nothing is asked of any other place, and nothing but the page’s own files is asked for', async () => {
	const asked: string[] = [];
	const { page } = await built.open({
		prepare: async (page) => page.on('request', (request) => asked.push(`${request.method()} ${request.url()}`)),
	});
	await runStudy(page, 6);
	await page.getByRole('link', { name: 'One drive' }).click();
	await page.locator('.waveform-picture').waitFor({ timeout: 40_000 });
	const own = new RegExp(`^GET (${built.address().replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}|blob:)`);
	expect(asked.filter((request) => !own.test(request))).toEqual([]);
	expect(asked.filter((request) => /[?&]/.test(request))).toEqual([]);
});

test('the kept page is of one version: its list of files names every file of the build', async () => {
	const worker = await (await fetch(`${built.address()}service-worker.js`)).text();
	const [, version = '', list = '[]'] = /^const version = '([0-9a-f]{16})';\nconst files = (.*);\n/.exec(worker) ?? [];
	expect(version).toHaveLength(16);
	const files = JSON.parse(list) as string[];
	const html = await (await fetch(built.address())).text();
	const linked = [...html.matchAll(/(?:src|href)="(\.\/[^"]+)"/g)].map(([, path]) => path);
	expect(linked.length).toBeGreaterThan(2);
	expect(files).toEqual(expect.arrayContaining(linked));
	for (const file of files) expect((await fetch(new URL(file, built.address()))).status).toBe(200);
});
