import { expect, test } from 'vitest';
import { answered, ask, axe, overflowAt320, saved, tooWide } from './ask-question.ts';
import { builtPage, runStudy } from './open-page.ts';

const built = builtPage();

test('where it stops working: along a parameter by link, over speed and torque by keys, at all limits, in the dark, axe, 390 px', async () => {
	const { page } = await built.open({ hash: '#limits', colorScheme: 'dark' });
	await page.getByLabel('values', { exact: true }).fill('3');
	await ask(page, 'Drives at each value', '20');
	expect(await page.locator('.sentence').textContent()).toMatch(
		/^The requirement is shown to hold at no speed with half-bus and .* with virtual neutral \(95.% confidence at each speed\)\.$/,
	);
	await page.locator('.limits-panel svg.marks').nth(1).waitFor();
	const csv = (await saved(page, 'range-passing', 'CSV')).toString();
	expect(csv).toMatch(/^layer,choice,at,.*\r\ncurves,halfBus,540,/);
	await page.getByText('Table: figures by speed').click();
	expect(await page.locator('.choice-table tbody').count()).toBe(2);
	expect(await axe(page)).toEqual([]);
	await page.setViewportSize({ width: 390, height: 844 });
	expect(await tooWide(page)).toEqual([]);
	expect(await overflowAt320(page)).toBe(0);
	// rows are blocks there, and still heard as a table's
	expect(await page.getByRole('row', { name: /^540.rpm/ }).count()).toBe(2);
	expect(await axe(page)).toEqual([]);
	await page.setViewportSize({ width: 1280, height: 720 });

	// another parameter is part of the address; figures of speed are then marked as such
	await page.getByLabel('Parameter').selectOption('supply.voltage');
	expect(await page.evaluate(() => location.hash)).toBe('#limits?over=supply.voltage');
	expect(await page.locator('.ask-bar .reservation').textContent()).toMatch(/other settings than the present ones/);
	await page.locator('#range-from').fill('12 A');
	expect(await page.locator('#range-from-problem').textContent()).toMatch(/^bus voltage has the end “12 A”/);

	await page.getByRole('link', { name: 'Speed and torque' }).focus();
	await page.keyboard.press('Enter');
	const torque = page.getByRole('group', { name: 'load torque' });
	await torque.getByLabel('values').fill('2');
	const speed = page.getByRole('group', { name: 'speed', exact: true });
	await speed.getByLabel('values').fill('3');
	await speed.getByLabel('from', { exact: true }).fill('540');
	await ask(page, 'Drives at a cell, at most', '60');
	expect(await page.locator('.sentence').textContent()).toMatch(
		/^Of 6 pairs of speed and torque, half-bus is .* \(95.% confidence for the whole map\)\.$/,
	);
	const cells = page.locator('.contest-map [role=gridcell]');
	expect(await cells.count()).toBe(6);
	await cells.nth(0).focus();
	await page.keyboard.press('ArrowRight');
	await page.keyboard.press('ArrowDown');
	const told = await page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');
	expect(told).toMatch(/rpm, 5\.4.mN·m: .* better.* of \d+ drives; .*% pass with half-bus/);
	expect(await page.locator('.cell-readout').textContent()).toBe(told);
	expect((await saved(page, 'contest-map', 'SVG')).toString()).toMatch(/^<svg[^>]*>.*<\/svg>\s*$/s);
	expect((await saved(page, 'contest-map', 'PNG')).subarray(1, 4).toString()).toBe('PNG');
	expect((await saved(page, 'contest-map', 'CSV')).toString()).toMatch(/^speed \(rpm\),torque \(N·m\),better,/);
	expect(await axe(page)).toEqual([]);
	await page.setViewportSize({ width: 390, height: 844 });
	expect(await tooWide(page)).toEqual([]);
	expect(await overflowAt320(page)).toBe(0);

	await page.getByRole('link', { name: 'All stated limits at once' }).click();
	await ask(page, 'Drives at each combination', '10');
	expect(await page.locator('.sentence').textContent()).toMatch(/^At all 24 combinations of limits \d/);
	await page.getByText('Table: the worst combinations').click();
	expect(await axe(page)).toEqual([]);
	expect(await tooWide(page)).toEqual([]);
	await answered(page);
}, 300_000);

test('what we sign: verdicts, deciding point, guesses, the line to get it again; older figures offer a new run; axe, 1280 × 720 and 390 px', async () => {
	const { page } = await built.open({ hash: '#sign' });
	await runStudy(page, 60);
	expect(await page.locator('.sentence').textContent()).toMatch(
		/^Half-bus (holds|fails|is undecided) \(\d+ of 60 drives pass\), virtual neutral (holds|fails|is undecided) \(\d+ of 60\); 95.% must pass, shown with 95.% confidence\.$/,
	);
	expect(await page.locator('.verdicts .decision td').count()).toBe(2);
	expect(await page.locator('.sign-panel').textContent()).toMatch(/Virtual neutral: slow decides/);
	expect(await page.locator('.tolerances .guess').count()).toBe(17);
	expect(await page.locator('.reproduce').textContent()).toBe(
		'npm run --silent study -- scenarios/fan-24v.json --seed=demo --units 60',
	);
	await page.locator('.sign-panel svg.marks').waitFor();
	expect((await saved(page, 'failing-shares', 'CSV')).toString()).toMatch(/all points,virtualNeutral,0\.\d+/);

	await page.getByRole('button', { name: 'Pin as baseline' }).click();
	await page.getByLabel('Drives to build').fill('40');
	expect(await page.locator('.overall .reservation').first().textContent()).toMatch(
		/not of the inputs as they are now/,
	);
	await page.getByRole('button', { name: 'Run again with the inputs as they are' }).click();
	await page.getByText(/^Finished in/).waitFor({ timeout: 60_000 });
	await expect.poll(() => page.locator('.verdicts small.was').first().textContent()).toMatch(/^was \d+ of 60$/);
	expect(await page.getByRole('button', { name: /^Run again with/ }).count()).toBe(0);

	expect(await axe(page)).toEqual([]);
	expect(await tooWide(page)).toEqual([]);
	await page.setViewportSize({ width: 390, height: 844 });
	expect(await tooWide(page)).toEqual([]);
	expect(await overflowAt320(page)).toBe(0);
}, 200_000);
