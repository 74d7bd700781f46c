import { readFileSync } from 'node:fs';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { overflow, overflowAt320 } from './ask-question.ts';
import { builtPage, runStudy } from './open-page.ts';

const built = builtPage();
const drive = '#one-drive?unit=19&point=0&start=3';
const drawn = (page: Page) => page.locator('.waveform-picture').waitFor({ timeout: 40_000 });
const view = async (page: Page): Promise<[number, number]> => {
	const label = (await page.locator('.scope').getAttribute('aria-label')) ?? '';
	const [from = Number.NaN, to = Number.NaN] = [...label.matchAll(/([\d.]+)\s*ms/g)].map(([, ms]) => Number(ms));
	return [from, to];
};

test('a link to a drive simulates it again: its causes, its run, its parts, and the very same the next time', async () => {
	const { page } = await built.open({ hash: drive });
	await drawn(page);
	await page.locator('.diagnosis').first().waitFor();
	const sentences = await page.locator('.diagnosis').allInnerTexts();
	expect(sentences).toHaveLength(2);
	expect(sentences[0]).toMatch(/^With half-bus sensing .*\d+\.\d+°/);
	expect(await page.locator('.which').textContent()).toMatch(/^Drive 19 at slow, start 4$/);
	await expect.poll(() => page.locator('#question').textContent()).toBe('Why did this drive fail with half-bus?');
	expect(await page.locator('.parts tbody tr').count()).toBeGreaterThan(9);
	// read off at the worst commutation without a hand's turn
	expect(await page.locator('.cursor-readout').textContent()).not.toContain('–');
	await page.getByText('Table: all sectors with half-bus').click();
	const sectors = await page.locator('.drive-sectors tbody tr').allInnerTexts();
	expect(sectors.length).toBeGreaterThanOrEqual(37);
	await page.reload();
	await drawn(page);
	await page.getByText('Table: all sectors with half-bus').click();
	expect(await page.locator('.drive-sectors tbody tr').allInnerTexts()).toEqual(sectors);
});

test('the worst drive is picked without a link, and the list, index, point and start pick others', async () => {
	const { page } = await built.open();
	await runStudy(page, 60);
	await page.getByRole('link', { name: 'One drive' }).click();
	await drawn(page);
	const worst = Number(await page.locator('.worst li .unit').first().textContent());
	expect(await page.evaluate(() => location.hash)).toBe(`#one-drive?unit=${worst}&point=0`);
	await page.locator('.worst li button').nth(2).click();
	const third = Number(await page.locator('.worst li .unit').nth(2).textContent());
	await expect.poll(() => page.locator('.which').textContent()).toContain(`Drive ${third} at slow`);
	await page.getByLabel('Drive by its index').fill('7');
	await page.getByRole('button', { name: 'Look' }).click();
	await page.getByLabel('Operating point').selectOption('rated');
	await expect.poll(() => page.locator('.which').textContent()).toContain('Drive 7 at rated');
	await page.locator('.starts').getByRole('button', { name: '2' }).click();
	await expect.poll(() => page.evaluate(() => location.hash)).toBe('#one-drive?unit=7&point=2&start=1');
	await page.getByLabel('Drive by its index').fill('seven');
	expect(await page.locator('#unit-index-problem').textContent()).toMatch(/“seven” is not the index of a drive/);
});

test('keys zoom, scrub and step from crossing to crossing; each is told', async () => {
	const { page } = await built.open({ hash: drive });
	await drawn(page);
	await page.getByLabel('Step through').selectOption('accepted');
	const scope = page.locator('.scope');
	await scope.focus();
	const whole = await view(page);
	await page.keyboard.press('+');
	const half = await view(page);
	expect(half[1] - half[0]).toBeCloseTo((whole[1] - whole[0]) / 2, 1);
	await page.keyboard.press('Home');
	const times: number[] = [];
	for (let i = 0; i < 3; i++) {
		await page.keyboard.press('PageDown');
		const words = (await page.locator('.event').textContent()) ?? '';
		expect(words).toMatch(/half-bus, sector \d+ \(.* phase [abc] (rises|falls)\): accepted, in order/);
		times.push(Number.parseFloat(words));
	}
	expect(times).toEqual([...times].sort((a, b) => a - b));
	await page.keyboard.press('PageUp');
	expect(Number.parseFloat((await page.locator('.event').textContent()) ?? '')).toBe(times[1]);
	const before = Number.parseFloat((await page.locator('.cursor-readout dd').first().textContent()) ?? '');
	await page.keyboard.press('ArrowRight');
	expect(Number.parseFloat((await page.locator('.cursor-readout dd').first().textContent()) ?? '')).toBeGreaterThan(
		before,
	);
	// readings are told apart once they are wide enough
	for (let i = 0; i < 4; i++) await page.keyboard.press('+');
	await page.locator('.readings .crossed circle').first().waitFor();
});

test('mouse and wheel zoom, drag moves, pointing reads off', async () => {
	const { page } = await built.open({ hash: drive });
	await drawn(page);
	await page.locator('.scope').scrollIntoViewIfNeeded();
	const box = await page.locator('.scope').boundingBox();
	if (!box) throw new Error('no picture');
	const [x, y] = [box.x + box.width / 2, box.y + 80];
	await page.mouse.move(x, y);
	await expect
		.poll(() => page.locator('.cursor-readout').textContent())
		.toMatch(/half-bus.*sense .*\sV, threshold .*\sV/);
	const whole = await view(page);
	await page.keyboard.down('Control');
	for (let i = 0; i < 6; i++) await page.mouse.wheel(0, -240);
	await page.keyboard.up('Control');
	await expect.poll(async () => (await view(page))[1] - (await view(page))[0]).toBeLessThan((whole[1] - whole[0]) / 4);
	const zoomed = await view(page);
	await page.mouse.down();
	await page.mouse.move(x - 120, y, { steps: 4 });
	await page.mouse.up();
	const moved = await view(page);
	expect(moved[0]).toBeGreaterThan(zoomed[0]);
	expect(moved[1] - moved[0]).toBeCloseTo(zoomed[1] - zoomed[0], 2);
});

test('on a touch screen two fingers zoom, one moves, a tap reads off; up and down the page still scrolls', async () => {
	const { page } = await built.open({ hash: drive, width: 390, height: 844, hasTouch: true });
	await drawn(page);
	await page.locator('.scope').scrollIntoViewIfNeeded();
	const box = await page.locator('.scope').boundingBox();
	if (!box) throw new Error('no picture');
	const [x, y] = [box.x + box.width / 2, Math.min(box.y + 60, 800)];
	const devtools = await page.context().newCDPSession(page);
	const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...at: readonly number[]) =>
		devtools.send('Input.dispatchTouchEvent', { type, touchPoints: at.map((x, id) => ({ x, y, id })) });
	const whole = await view(page);
	await touch('touchStart', x - 20);
	await touch('touchStart', x - 20, x + 20);
	for (const reach of [35, 50, 65, 80]) await touch('touchMove', x - reach, x + reach);
	await touch('touchEnd');
	// fingers four times as far apart: a quarter of the time
	await expect.poll(async () => (await view(page))[1] - (await view(page))[0]).toBeLessThan((whole[1] - whole[0]) / 3);
	const zoomed = await view(page);
	await touch('touchStart', x);
	for (const step of [15, 40, 70, 100]) await touch('touchMove', x - step);
	await touch('touchEnd');
	await expect.poll(async () => (await view(page))[0]).toBeGreaterThan(zoomed[0]);
	const moved = await view(page);
	expect(moved[1] - moved[0]).toBeCloseTo(zoomed[1] - zoomed[0], 2);
	await touch('touchStart', x);
	await touch('touchEnd');
	await expect.poll(() => page.locator('.cursor-readout').textContent()).toMatch(/half-bus.*sense .*\sV, threshold/);
	expect(await view(page)).toEqual(moved);
	expect(await page.locator('.scope').evaluate((scope) => getComputedStyle(scope).touchAction)).toBe('pan-y');
});

test('a board of one’s own takes the drive’s place; a broken one is told of and changes nothing', async () => {
	const { page } = await built.open({ hash: drive });
	await drawn(page);
	const before = await page.locator('.diagnosis').first().textContent();
	await page.getByText('Measured values of a board').click();
	const text = page.getByLabel('Board', { exact: true });
	await text.fill('{"cases": [{"deviations": {"sensing.comparator.offsets": 1}}]}');
	await page.getByRole('button', { name: 'Simulate this board' }).click();
	expect(await page.locator('.board-entry .problems').textContent()).toMatch(/sensing\.comparator\.offset/);
	expect(await page.locator('.diagnosis').first().textContent()).toBe(before);
	await page.getByRole('button', { name: "Fill in this drive's values" }).click();
	const filled = JSON.parse(await text.inputValue());
	filled.cases[0].deviations['sensing.comparator.offset'] = [0.14, 0.14, 0.14];
	await text.fill(JSON.stringify(filled));
	await page.getByRole('button', { name: 'Simulate this board' }).click();
	await expect.poll(() => page.locator('.which').textContent()).toMatch(/^A measured board in place of drive 19/);
	await expect.poll(() => page.locator('.diagnosis').first().textContent()).toMatch(/comparator offset/);
	await page.getByRole('button', { name: 'Back to the drawn drive' }).click();
	await expect.poll(() => page.locator('.diagnosis').first().textContent()).toBe(before);
});

test('with a pinned baseline the same drive’s figures in it stand beside the present ones, its marks in the picture', async () => {
	const { page } = await built.open({ hash: drive });
	await runStudy(page, 30);
	await page.getByRole('button', { name: 'Pin as baseline' }).click();
	await page.getByLabel('bus divider, top: mismatch tolerance').fill('0.1 %');
	await page.locator('.changed', { hasText: /^Since the baseline, the same drive at slow: half-bus .* →\s/ }).waitFor();
	expect(await page.locator('.starts small.was').allTextContents()).toHaveLength(8);
	await page.getByLabel('Step through').selectOption('accepted');
	await page.getByRole('button', { name: 'Next event' }).click();
	await page.locator('.ghost .ghost-accepted').first().waitFor();
	expect(await page.locator('.picture-key').textContent()).toContain('Grey, the baseline:');
	await page.getByText('Table: all sectors with half-bus').click();
	expect(await page.locator('.drive-sectors small.was').first().textContent()).toMatch(/^was [+−]\d/);

	// with another seed the baseline's drive of this index is another one, and the page says so
	await runStudy(page, 30, 'another');
	const other = page.locator('.changed', {
		hasText: /^Against the baseline's drive 19 at slow, which is another drive: /,
	});
	await other.waitFor();
	expect(await other.textContent()).toMatch(/Seed demo draws other parts, moments and noise than seed another/);
	expect(await page.locator('.starts small.was').first().textContent()).toMatch(/^baseline's \d/);
	await page.getByRole('button', { name: 'Unpin' }).click();
	await expect.poll(() => page.locator('.changed, .one-drive small.was, .ghost-accepted').count()).toBe(0);
});

test('the run is saved as SVG, PNG and CSV', async () => {
	const { page } = await built.open({ hash: drive });
	await drawn(page);
	const saved = async (kind: string): Promise<Buffer> => {
		const [download] = await Promise.all([
			page.waitForEvent('download'),
			page.getByRole('button', { name: `Save waveforms as ${kind}` }).click(),
		]);
		expect(download.suggestedFilename()).toBe(`waveforms.${kind.toLowerCase()}`);
		return readFileSync(await download.path());
	};
	const svg = (await saved('SVG')).toString();
	expect(svg).toMatch(/^<svg[^>]+xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
	expect(svg).not.toMatch(/var\(--|class=/);
	// what its marks and lines stand for goes along
	for (const words of ['blanking', 'commutation', 'true crossing', 'accepted', 'votes needed', 'threshold'])
		expect(svg).toContain(`>${words}</text>`);
	expect((await saved('PNG')).subarray(1, 4).toString()).toBe('PNG');
	const csv = (await saved('CSV')).toString().split('\r\n');
	expect(csv[0]).toMatch(/^from \(s\),to \(s\),halfBus sense lowest \(V\)/);
	expect(csv.length).toBeGreaterThan(300);
});

test.each(['light', 'dark'] as const)(
	'axe finds nothing on one drive in the %s theme',
	async (colorScheme) => {
		const { page } = await built.open({ hash: drive, colorScheme });
		await drawn(page);
		await page.locator('.diagnosis').first().waitFor();
		await page.getByRole('button', { name: 'Next event' }).click();
		await page.getByText('Measured values of a board').click();
		const { violations } = await new AxeBuilder({ page })
			.withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
			.analyze();
		expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
	},
	150_000,
);

test('nothing of one drive sticks out to the side at 390 px, nor at 320', async () => {
	const { page } = await built.open({ hash: drive, width: 390, height: 844 });
	await drawn(page);
	await page.locator('.diagnosis').first().waitFor();
	expect(await overflow(page)).toBeLessThanOrEqual(0);
	expect(await overflowAt320(page)).toBe(0);
});
