import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { overflow, overflowAt320 } from './ask-question.ts';
import { builtPage, runStudy } from './open-page.ts';

const built = builtPage();
/** The run that an edit has set off is over. */
const finished = (page: Page) =>
	page.locator('.progress', { hasText: /^Finished in|^Figures of an earlier run/ }).waitFor({ timeout: 50_000 });
/** The baseline is held against other figures. */
const compared = (page: Page) => page.locator('.changed').waitFor({ timeout: 50_000 });

test('"4k7" typed is read as 4.7 kΩ, drawn in the network, marked as changed, and taken back by undo, redo and reset', async () => {
	const { page } = await built.open();
	await runStudy(page, 6);
	const field = page.getByLabel('phase divider, bottom', { exact: true });
	const network = page.locator('.network [data-part="sensing.divider.bottom"]');
	await field.fill('5k1');
	expect(await network.getAttribute('class')).toMatch(/is-edited/);
	expect(await network.textContent()).toMatch(/5\.1 kΩ± 1 %/);
	const row = page.locator('[data-row="sensing.divider.bottom"]');
	expect(await row.textContent()).toMatch(/was 4\.7\u00a0kΩ, mismatch 1\u00a0%/);
	await field.press('Enter');
	expect(await field.inputValue()).toBe('5.1 kΩ');
	await field.press('Control+z');
	expect(await field.inputValue()).toBe('4.7 kΩ');
	expect(await row.textContent()).not.toMatch(/was/);
	await field.press('Control+Shift+z');
	expect(await field.inputValue()).toBe('5.1 kΩ');
	await page.getByRole('button', { name: 'Reset all' }).click();
	expect(await field.inputValue()).toBe('4.7 kΩ');
	await page.getByRole('button', { name: 'Undo' }).click();
	expect(await field.inputValue()).toBe('5.1 kΩ');
	await finished(page);
});

test('a value out of range is told beside its field in words and runs nothing; the next good one runs', async () => {
	const { page } = await built.open();
	await runStudy(page, 6);
	const field = page.getByLabel('star resistor', { exact: true });
	await field.fill('5');
	const problem = page.locator('[data-row="sensing.virtualNeutral.star"] .problem');
	expect(await problem.textContent()).toBe('star resistor must be from 10\u00a0Ω to 100\u00a0MΩ');
	expect(await field.getAttribute('aria-invalid')).toBe('true');
	expect(await field.getAttribute('aria-describedby')).toBe(await problem.getAttribute('id'));
	expect(await page.getByRole('button', { name: 'Run', exact: true }).isDisabled()).toBe(true);
	await field.fill('66k5');
	expect(await problem.count()).toBe(0);
	await finished(page);
});

test('the arrow keys step a 1 % resistor through E96, and a grade button sets its tolerance', async () => {
	const { page } = await built.open();
	await runStudy(page, 6);
	const field = page.getByLabel('bus divider, top', { exact: true });
	await field.focus();
	await field.press('ArrowUp');
	expect(await field.inputValue()).toBe('49.9 kΩ');
	await field.press('ArrowDown');
	await field.press('ArrowDown');
	expect(await field.inputValue()).toBe('47.5 kΩ');
	const inspector = page.getByRole('complementary', { name: 'About bus divider, top' });
	await inspector.getByRole('button', { name: '0.1 %' }).click();
	expect(await page.getByLabel('bus divider, top: mismatch tolerance').inputValue()).toBe('0.1 %');
	expect(await inspector.textContent()).toMatch(/E192/);
	await finished(page);
});

test('a pinned result stays as a ghost: the change of the same drives with its interval, and which edit did it', async () => {
	const { page } = await built.open();
	await runStudy(page, 40);
	await page.getByRole('button', { name: 'Pin as baseline' }).click();
	await page.getByLabel('phase divider, top', { exact: true }).fill('22k6');
	await page.getByLabel('star resistor: mismatch tolerance').fill('0.1 %');
	await finished(page);
	await compared(page);
	expect(await page.locator('.changed').textContent()).toMatch(
		/^Since the baseline, at slow: half-bus \d+\.\d\d° →\s\d+\.\d\d°, \+\d+\.\d\d°\u00a0±\u00a0\d+\.\d\d°; virtual neutral .* on the same 40 drives; ±\s/,
	);
	expect(await page.locator('.figures small.was').first().textContent()).toMatch(
		/^was \d+\.\d\d°: \+\d+\.\d\d° ±\u00a0\d/,
	);
	await page.getByRole('link', { name: 'What changed', exact: true }).click();
	await page.getByRole('heading', { name: 'Which edit did it, at slow' }).waitFor({ timeout: 50_000 });
	expect(await page.locator('.edits li').allInnerTexts()).toEqual([
		'phase divider, top 22\u00a0kΩ, mismatch 1\u00a0% → 22.6\u00a0kΩ, mismatch 1\u00a0%',
		'star resistor 66.5\u00a0kΩ, mismatch 1\u00a0% → 66.5\u00a0kΩ, mismatch 0.1\u00a0%',
	]);
	const typical = page.locator('.attribution table').first();
	expect(await typical.locator('tbody').first().textContent()).toMatch(/phase divider, top\+\d+\.\d\d°/);
	// bars grow from one line, whatever their figures take
	const bars = await page
		.locator('.attribution .share-bar')
		.evaluateAll((all) => all.map((bar) => Math.round(bar.getBoundingClientRect().right)));
	expect(new Set(bars).size).toBe(1);
	await page.setViewportSize({ width: 390, height: 844 });
	expect(await overflow(page)).toBeLessThanOrEqual(0);
	// thin, under its figure
	const bar = await typical.locator('.share-bar').first().boundingBox();
	expect(bar?.height).toBeLessThan(10);
	expect(bar?.y).toBeGreaterThan((await typical.locator('td.share').first().boundingBox())?.y ?? Infinity);
	// changes stand alone over their intervals, one form in all of the table
	expect(await page.locator('.headline-changes').textContent()).not.toContain('±');
	await page.setViewportSize({ width: 1280, height: 720 });
	// the baseline's own figures, once the edits are taken back
	await page.getByRole('button', { name: 'Reset all' }).click();
	await page.getByText('(on show)').waitFor();
	const { violations } = await new AxeBuilder({ page }).analyze();
	expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
}, 120_000);

test('after an edit a preview of one point is shown and called that, and typing goes on meanwhile', async () => {
	const { page } = await built.open();
	await runStudy(page, 40);
	await page.getByLabel('Drives to build').fill('4000');
	const field = page.getByLabel('comparator offset: mismatch tolerance');
	await field.fill('6 mV');
	await page.getByText(/^A preview: \d+ drives, one start each, at slow alone\./).waitFor({ timeout: 20_000 });
	await field.fill('7 mV');
	expect(await field.inputValue()).toBe('7 mV');
	await page.getByText(/^A preview: \d+ drives, one start each, at slow alone\./).waitFor({ timeout: 20_000 });
	await page.getByText(/^Figures so far, from \d/).waitFor({ timeout: 50_000 });
	await page.getByRole('button', { name: 'Cancel' }).click();
}, 120_000);

test('measured values dropped on a row replace its distribution, with their number and a warning as they are few', async () => {
	const { page } = await built.open();
	await runStudy(page, 6);
	await page.evaluate(() => {
		const dataTransfer = new DataTransfer();
		dataTransfer.items.add(new File(['value\n22k\n22.1k\n21.9k\n22.05k\n'], 'bench.csv'));
		document
			.querySelector('[data-row="sensing.divider.top"]')
			?.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
	});
	const inspector = page.getByRole('complementary', { name: 'About phase divider, top' });
	await inspector.getByText(/^Only 4 measured values: about 40\.0.% of further parts lie beyond/).waitFor();
	expect(await page.locator('[data-row="sensing.divider.top"] .measured-count').textContent()).toBe('4 measured');
	expect(await inspector.getByRole('img').getAttribute('aria-label')).toMatch(
		/4 measured.*against the assumed mismatch ± 1\u00a0%/,
	);
	await finished(page);
	await inspector.locator('input[type=file]').setInputFiles({
		name: 'wrong.csv',
		mimeType: 'text/csv',
		buffer: Buffer.from('22k\nopen\n'),
	});
	expect(await inspector.getByRole('alert').textContent()).toMatch(
		/wrong\.csv was not taken:line 2: “open” cannot be read/,
	);
	expect(await page.locator('[data-row="sensing.divider.top"] .measured-count').textContent()).toBe('4 measured');
});

test('nothing sticks out at 390 px, nor at 320, with the form open, section by section, in either theme; axe finds nothing', async () => {
	const { page } = await built.open({ width: 390, height: 844, colorScheme: 'dark' });
	await runStudy(page, 6);
	await page.locator('.inputs > summary').click();
	for (const name of [
		'Motor',
		'Bus and inverter',
		'Detection',
		'Noise',
		'Operating points',
		'Requirement',
		'Sensing network',
	]) {
		await page.getByRole('button', { name, exact: true }).click();
		expect(await overflow(page), name).toBeLessThanOrEqual(0);
		expect(await overflowAt320(page), name).toBe(0);
		await page.setViewportSize({ width: 390, height: 844 });
	}
	await page.getByLabel('star resistor', { exact: true }).fill('5');
	const { violations } = await new AxeBuilder({ page })
		.withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
		.analyze();
	expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
}, 120_000);
