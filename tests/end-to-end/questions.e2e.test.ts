import { expect, test } from 'vitest';
import { answered, ask, axe, overflowAt320, saved, tooWide } from './ask-question.ts';
import { builtPage } from './open-page.ts';

const built = builtPage();

test('what grade is enough: asked by link, answered with figures, stale after an edit, asked again, saved, axe and 390 px', async () => {
	const { page } = await built.open({ hash: '#grades' });
	await ask(page, 'Drives in each run', '60');
	expect(await page.locator('.sentence').textContent()).toMatch(
		/^Of the sensing resistors, .* with half-bus.* virtual neutral \(enough: at least 95.% of drives pass/,
	);
	expect(await page.locator('.grade-tables tbody').count()).toBe(2);
	await page.locator('.grade-pictures svg.marks').nth(1).waitFor();
	const csv = (await saved(page, 'grades-errors', 'CSV')).toString();
	expect(csv).toMatch(/^layer,grade,choice,value,low,high,median,says\r\nerrors,exact,halfBus,\d/);
	expect((await saved(page, 'grades-shortfalls', 'SVG')).toString()).toMatch(/5.% allowed/);

	// an edit leaves the answer on show, says that it is of earlier inputs, and asks nothing by itself
	await page.getByLabel('star resistor: mismatch tolerance').fill('0.5 %');
	await page.locator('.ask-bar.is-stale').waitFor();
	expect(await page.locator('.ask-bar .reservation').textContent()).toMatch(
		/^These figures are of earlier inputs\. Changed since: star resistor 66\.5.kΩ, mismatch 1.% →\s/,
	);
	await page.getByRole('button', { name: 'Run again' }).click();
	await page.getByRole('button', { name: 'Stop' }).waitFor();
	// an edit while it runs ends it
	await page.getByLabel('star resistor: mismatch tolerance').fill('0.2 %');
	await page.getByText('Stopped, since an input was changed.').first().waitFor();
	await page.getByRole('button', { name: 'Reset all' }).click();
	await page.locator('.ask-bar:not(.is-stale)').waitFor();

	await page.getByLabel('Grades, such as').fill('1 %, 40 %');
	expect(await page.locator('#grade-list-problem').textContent()).toMatch(/“40 %”/);
	await page.getByLabel('Grades, such as').fill('5 %, 2 %, 1 %, 0.5 %, 0.1 %');
	expect(await axe(page)).toEqual([]);
	await page.setViewportSize({ width: 390, height: 844 });
	expect(await tooWide(page)).toEqual([]);
	expect(await overflowAt320(page)).toBe(0);
}, 240_000);

test('what drives the spread: reached by keyboard, answered point by point, against a baseline, in the dark, axe and 390 px', async () => {
	const { page } = await built.open({ colorScheme: 'dark' });
	await page.getByRole('link', { name: 'What drives the spread' }).focus();
	await page.keyboard.press('Enter');
	await page.getByRole('heading', { name: 'What drives the spread?' }).waitFor();
	await ask(page, 'Rows of the design; more narrow the intervals', '24');
	expect(await page.locator('.sentence').textContent()).toMatch(
		/^At slow half-bus spreads by \d\.\d\d°, \d+.% of it \(.*\) from the .*; virtual neutral spreads by /,
	);
	await page.locator('.origins-picture svg.marks').waitFor();
	await page.locator('.budgets svg.marks').waitFor();
	expect(await page.locator('.budgets').textContent()).toMatch(/no drive that anyone will build/);
	expect(await page.locator('.worst-sector').count()).toBe(2);
	expect((await saved(page, 'spread-origins', 'PNG')).subarray(1, 4).toString()).toBe('PNG');

	await page.getByRole('button', { name: 'Pin as baseline' }).click();
	await page.getByLabel('star resistor: mismatch tolerance').fill('5 %');
	await page.getByRole('button', { name: 'Run again' }).click();
	await page.locator('.changed').waitFor({ timeout: 100_000 });
	expect(await page.locator('.changed').textContent()).toMatch(
		/^Since the baseline: half-bus .*virtual neutral \d+\.\d+° →\s\d+\.\d+°, [+−]?\d+\.\d+°\s±\s\d+\.\d+°\. Standard deviation .* ±\sto the farther limit of the 95\s% interval\.$/,
	);
	expect(await page.locator('.shares small.was').first().textContent()).toMatch(/^was \d+/);
	await answered(page);
	expect(await axe(page)).toEqual([]);
	await page.setViewportSize({ width: 390, height: 844 });
	expect(await tooWide(page)).toEqual([]);
	expect(await overflowAt320(page)).toBe(0);
}, 240_000);
