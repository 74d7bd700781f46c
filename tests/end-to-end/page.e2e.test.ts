import { readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from 'vitest';
import { ensureBuilt } from '../../src/tooling/ensure-built.mjs';
import { projectRoot } from '../../src/tooling/project.mjs';
import { overflow, overflowAt320, saved } from './ask-question.ts';
import { builtPage, firstFigures, restsOn, runStudy } from './open-page.ts';

const built = builtPage();
/** A stand-in for a file the user picks. */
const file = (name: string, text: string) => ({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

test('the page opens with the 24 V fan running and shows its figures while drives are still being simulated', async () => {
	const { page } = await built.open();
	expect(
		await page
			.getByLabel('Scenario', { exact: true })
			.evaluate((select: HTMLSelectElement) => select.selectedOptions[0]?.label),
	).toBe('24 V fan');
	await firstFigures(page);
	expect(await page.getByRole('progressbar').count()).toBe(1);
	expect(await page.locator('.reservation').first().textContent()).toMatch(
		/^(A preview: \d+ drives, one start each, at slow alone\.|Figures so far, from \d+ of 1000 drives\.$)/,
	);
});

test('a finished study of 24 drives gives the sentence, both distributions, rates and tables', async () => {
	const { page } = await built.open();
	await runStudy(page, 24);
	expect(await page.locator('.sentence').textContent()).toMatch(/\(24 drives, 95\u00a0% confidence at each point\)\.$/);
	expect(await page.locator('.lead').textContent()).toMatch(/^At slow .*\d+\.\d+°/);
	await page.waitForFunction(() => document.querySelectorAll('.chart-host svg').length === 5);
	// 24 drives × 4 starts × 24 sectors
	await page.getByText('Table: errors by bin').click();
	const counts = await page.locator('.errors tbody td:nth-child(2)').allInnerTexts();
	const total = counts.map((text) => Number(text.replace(/\D/g, ''))).reduce((a, b) => a + b, 0);
	expect(total).toBeGreaterThan(2304 * 0.998);
	expect(total).toBeLessThanOrEqual(2304);
	expect(await page.locator('.caution').textContent()).toMatch(
		/Simulated estimates.*dangerous.*Local codes.*qualified practice/,
	);
	expect(await restsOn(page, 'Drives')).toBe('24\u00a0asked, 24\u00a0finished, 0\u00a0failed');
});

test('one seed gives one result digest, another seed another', async () => {
	const { page } = await built.open();
	const digests: (string | null)[] = [];
	for (const seed of ['one', 'two', 'one']) {
		await runStudy(page, 6, seed);
		digests.push(await restsOn(page, 'Result digest'));
	}
	expect(digests[0]).toMatch(/^[0-9a-f]{64}$/);
	expect(digests[2]).toBe(digests[0]);
	expect(digests[1]).not.toBe(digests[0]);
});

test('arrow keys move between the operating points without another run', async () => {
	const { page } = await built.open();
	await runStudy(page, 6);
	const ended = await page.getByText(/^Finished in/).textContent();
	const digest = await restsOn(page, 'Result digest');
	await page.getByRole('tab', { name: /slow/ }).focus();
	await page.keyboard.press('ArrowRight');
	expect(await page.locator('.lead').textContent()).toMatch(/^At middle /);
	await page.keyboard.press('End');
	expect(await page.locator('.lead').textContent()).toMatch(/^At rated /);
	expect(await page.getByRole('tab', { selected: true }).textContent()).toMatch(/^rated/);
	expect(await page.getByText(/^Finished in/).textContent()).toBe(ended);
	expect(await restsOn(page, 'Result digest')).toBe(digest);
});

test('cancel stops a run of 100 000 drives long before its end, keeps what finished, and the next run works', async () => {
	const { page } = await built.open();
	await page.getByLabel('Drives to build').fill('100000');
	await page.getByRole('button', { name: 'Run' }).click();
	await page.getByText(/^Figures so far, from \d+ of 100.000 drives\.$/).waitFor();
	await page.getByRole('button', { name: 'Cancel' }).click();
	// at most four digits: a run to its end would have six
	await page.locator('.progress', { hasText: /^Stopped after \d{1,3}(.?\d{3})? of 100.000 drives\.$/ }).waitFor();
	expect(await page.locator('.reservation').first().textContent()).toMatch(
		/^The run was stopped: figures from \d+ of 100.000 drives\.$/,
	);
	await runStudy(page, 6);
	expect(await restsOn(page, 'Drives')).toBe('6\u00a0asked, 6\u00a0finished, 0\u00a0failed');
});

test('a number of drives that is none is told beside its field, and cannot be run', async () => {
	const { page } = await built.open();
	await page.getByLabel('Drives to build').fill('many');
	expect(await page.locator('#units-problem').textContent()).toBe('“many” is not a whole number from 1 to 1 000 000.');
	expect(await page.getByLabel('Drives to build').getAttribute('aria-invalid')).toBe('true');
	expect(await page.getByRole('button', { name: 'Run' }).isDisabled()).toBe(true);
	await page.getByLabel('Drives to build').fill('10');
	expect(await page.getByRole('button', { name: 'Run' }).isDisabled()).toBe(false);
});

test('a broken scenario file lists every problem with path, value and range; the demos still run', async () => {
	const { page } = await built.open();
	const broken = '{"name":"Broken","suply":{},"points":[{"name":"a","speed":-5,"torque":"0.1 V"}]}';
	await page.locator('input[type=file]').setInputFiles(file('broken.json', broken));
	const problems = page.getByRole('alert');
	expect(await problems.textContent()).toMatch(/broken\.json has 3 problems and was not run/);
	const list = (await problems.getByRole('listitem').allInnerTexts()).join('\n');
	expect(list).toMatch(/suply[\s\S]*supply/);
	expect(list).toMatch(/points\[0\]\.speed is -5[\s\S]*rpm/);
	expect(list).toMatch(/points\[0\]\.torque is "?0\.1 V/);
	await page.getByLabel('Scenario', { exact: true }).selectOption({ label: '24 V fan' });
	expect(await problems.count()).toBe(0);
	await runStudy(page, 6);
});

test.each([
	['text that is not JSON', 'fan: 24 V', /\(file\)|line|JSON/i],
	['a list nested 100 000 deep', '['.repeat(100_000), /at most|no more than 20 levels of nesting/],
	['a file of 5 MB', ' '.repeat(5_000_000), /at most 4000 kB/],
])('%s is refused in words', async (_name, text, words) => {
	const { page } = await built.open();
	await page.locator('input[type=file]').setInputFiles(file('wrong.json', text));
	await expect.poll(() => page.getByRole('alert').textContent()).toMatch(words);
	expect(await page.getByRole('alert').textContent()).toContain('wrong.json');
});

test('a scenario file dropped on the page is run', async () => {
	const { page } = await built.open();
	await page.getByLabel('Drives to build').fill('6');
	const text = JSON.stringify({ name: 'Dropped', points: [{ name: 'only', speed: '2000 rpm', torque: '44 mN·m' }] });
	await page.evaluate((content) => {
		const dataTransfer = new DataTransfer();
		dataTransfer.items.add(new File([content], 'dropped.json'));
		document.body.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
	}, text);
	await page.getByText(/^Finished in/).waitFor();
	expect(await page.getByRole('tab').allInnerTexts()).toEqual([expect.stringMatching(/^only/)]);
	expect(await page.locator('.lead').textContent()).toMatch(/^At only /);
});

test.each([
	['workers', /browser-worker.*\.js$/, /^The run failed\. None of the 1000 drives could be simulated\..*worker/],
	['an engine', /engine-worker.*\.js$/, /^The run failed\. The engine could not be loaded/],
])('%s that cannot be loaded end the run with the reason in words', async (_name, script, words) => {
	const { page } = await built.open({
		mayFail: true,
		prepare: (page) => page.route(script, (route) => route.abort()),
	});
	await page.locator('.setup .problem', { hasText: words }).waitFor();
});

test('a worker killed in the middle of a run has its drives run again: every figure is as without it', async () => {
	const { page } = await built.open({ mayFail: true });
	const workers = () => page.workers().filter((worker) => worker.url().includes('browser-worker'));
	await runStudy(page, 400, 'again');
	const undisturbed = await restsOn(page, 'Result digest');
	const before = workers();
	await page.getByRole('button', { name: 'Run', exact: true }).click();
	await page.getByText(/^[1-9]\d* of 400 drives simulated(, about \d+\ss left)?$/).waitFor();
	// as running out of memory would: outside any call, so that no answer ever comes
	await before[0]?.evaluate(
		() =>
			void setTimeout(() => {
				throw new Error('out of everything');
			}),
	);
	await page.getByText(/^Finished in/).waitFor({ timeout: 50_000 });
	expect(workers()).toHaveLength(before.length);
	expect(workers()).not.toContain(before[0]);
	expect(await restsOn(page, 'Result digest')).toBe(undisturbed);
	expect(await restsOn(page, 'Drives')).toBe('400\u00a0asked, 400\u00a0finished, 0\u00a0failed');
	const told = page.locator('.reservation', { hasText: 'A worker was lost' });
	expect(await told.textContent()).toContain('out of everything');
	expect(await told.textContent()).toContain('was run again on a fresh one');
}, 150_000);

test('drives that break down are counted, told of above the figures and listed with their reason; the others answer', async () => {
	// where a kernel gives up over diode events it now also does over a high bus, whose voltage is a drive's own
	const givesUp = 'this.stalled>20)';
	const { page } = await built.open({
		prepare: (fresh) =>
			fresh.context().route('**/browser-worker-*.js', async (route) => {
				const response = await route.fetch();
				const script = await response.text();
				expect(script).toContain(givesUp);
				await route.fulfill({
					response,
					body: script.replace(givesUp, 'this.stalled>20||this.circuit.voltage>25.15)'),
				});
			}),
	});
	await runStudy(page, 60);
	const drives = (await restsOn(page, 'Drives')) as string;
	const [, finished, failed] = drives.match(/^60\u00a0asked, (\d+)\u00a0finished, (\d+)\u00a0failed$/) ?? [];
	expect(Number(failed)).toBeGreaterThan(2);
	expect(Number(finished)).toBe(60 - Number(failed));
	const told = page.locator('.reservation', { hasText: 'could not be simulated' });
	expect(await told.textContent()).toContain(`${failed} of 60 drives could not be simulated; they are in none`);
	const list = page.locator('details', { hasText: 'Drives that could not be simulated' });
	const rows = await list.getByText('diode events follow each other without end').count();
	expect(rows).toBe(Number(failed));
}, 60_000);

test('a place clicked in the error pictures, or picked in their table by keyboard, names drives; one leads to its waveforms', async () => {
	const { page } = await built.open();
	await runStudy(page, 24);
	const chart = page.locator('.errors .chart-host').first();
	await chart.locator('svg').waitFor();
	await chart.scrollIntoViewIfNeeded();
	const box = await chart.boundingBox();
	if (!box) throw new Error('no chart');
	await page.mouse.click(box.x + 0.8 * box.width, box.y + box.height / 2);
	const here = page.locator('.drives-here');
	await here.getByRole('link').first().waitFor();
	expect(await here.textContent()).toMatch(
		/^At −?\d+\.\d+° … −?\d+\.\d+°[\s\S]*half-bus: drive \d+ \((earliest|mean|latest) [+−]\d/,
	);
	await here.getByRole('button', { name: 'Close' }).click();
	await page.getByText('Table: errors by bin').focus();
	await page.keyboard.press('Enter');
	await page.locator('.errors .bin').nth(2).focus();
	await page.keyboard.press('Enter');
	// the list takes the focus: its first drive is one key away
	await page.waitForFunction(() => document.activeElement?.matches('.drives-here a'));
	const words = await page.evaluate(() => document.activeElement?.textContent ?? '');
	await page.keyboard.press('Enter');
	await expect
		.poll(() => page.locator('.which').textContent(), { timeout: 40_000 })
		.toContain(`Drive ${words.match(/\d+/)?.[0]} at slow`);
});

test('from the first key to a drive’s waveforms without a mouse: skip link, views, point, an edit, baseline, undo', {
	timeout: 120_000,
}, async () => {
	const { page } = await built.open();
	await runStudy(page, 24);
	const press = async (key: string, times = 1): Promise<void> => {
		for (let i = 0; i < times; i += 1) await page.keyboard.press(key);
	};
	/** Tab until something is reached. */
	const tabTo = async (selector: string): Promise<void> => {
		for (let i = 0; i < 120; i += 1) {
			await press('Tab');
			if (await page.evaluate((wanted) => document.activeElement?.matches(wanted) ?? false, selector)) return;
		}
		throw new Error(`${selector} is not within a Tab's reach`);
	};
	await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
	await tabTo('.skip');
	await press('Enter');
	expect(await page.evaluate(() => document.activeElement?.id)).toBe('answer');
	await tabTo('.baseline-bar button');
	await press('Enter');
	await page.getByText('Baseline: 24 V fan').waitFor();
	await tabTo('[role=tab]');
	await press('ArrowRight');
	expect(await page.getByRole('tab', { selected: true }).textContent()).toMatch(/^middle/);
	await page.evaluate(() => document.querySelector<HTMLElement>('#scenario')?.focus());
	await tabTo('[data-field="sensing.divider.top value"]');
	await press('ArrowUp');
	await page.locator('.changed').waitFor({ timeout: 40_000 });
	await press('Control+z');
	await page.getByText('(on show)').waitFor({ timeout: 40_000 });
	await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
	await tabTo('a[href^="#one-drive"]');
	await press('Enter');
	await page.locator('.waveform-picture').waitFor({ timeout: 40_000 });
	await tabTo('.scope');
	const before = await page.locator('.scope').getAttribute('aria-label');
	await press('+');
	expect(await page.locator('.scope').getAttribute('aria-label')).not.toBe(before);
});

test('keys alone: an inspector by F2 and back by Esc, no press leaves the focus nowhere, what was opened gives it back', {
	timeout: 120_000,
}, async () => {
	const { page } = await built.open();
	await runStudy(page, 24);
	/** What has the focus, as a selector would have to match it. */
	const has = (selector: string) =>
		page.waitForFunction((wanted) => document.activeElement?.matches(wanted), selector, { timeout: 20_000 });
	const press = async (name: string | RegExp): Promise<void> => {
		await page.getByRole('button', { name }).first().focus();
		await page.keyboard.press('Enter');
	};
	// from here on the keyboard is what was used last
	await page.keyboard.press('Tab');
	await press('Pin as baseline');
	await has('.baseline-bar button');

	// Tab leads from a row to the next one; F2 to what helps with this one
	const field = await page.evaluate(
		(wanted) => document.querySelector(wanted)?.getAttribute('data-field') ?? '',
		'[data-field^="sensing."][aria-keyshortcuts=F2]',
	);
	await page.locator(`[data-field="${field}"]`).focus();
	await page.keyboard.press('F2');
	await has('.inspector button');
	const before = await page.locator(`[data-field="${field}"]`).inputValue();
	await page.keyboard.press('Enter');
	await expect.poll(() => page.locator(`[data-field="${field}"]`).inputValue()).not.toBe(before);
	for (let i = 0; i < 20 && !(await page.evaluate(() => document.activeElement?.matches('[data-measured]'))); i += 1) {
		await page.keyboard.press('Tab');
	}
	await has('.inspector [data-measured]');
	await page.keyboard.press('Escape');
	await has(`[data-field="${field}"]`);

	// a button that goes or is disabled when it is pressed
	await press(/^Reset (?!all)/);
	await has('.input-row input');
	await press('Undo');
	await press('Reset all');
	await has('.steps button');
	await press('Unpin');
	await has('.baseline-bar button');
	await press('Run');
	await page.getByText(/^Finished in/).waitFor({ timeout: 50_000 });

	await page.getByText('Table: errors by bin').focus();
	await page.keyboard.press('Enter');
	await page.locator('.errors .bin').nth(12).focus();
	await page.keyboard.press('Enter');
	await has('.drives-here a');
	await page.keyboard.press('Escape');
	await has('.errors .bin');

	await page.getByRole('link', { name: 'Keep and share' }).focus();
	await page.keyboard.press('Enter');
	for (const name of ['first', 'second']) {
		await page.getByLabel('Name', { exact: true }).fill(name);
		await press('Keep in this browser');
		await page.getByRole('heading', { name, exact: true }).waitFor();
	}
	await press('Name and note of first');
	await has('.edit input');
	await page.keyboard.press('Escape');
	await has('[aria-label="Name and note of first"]');
	for (let i = 0; i < 2; i += 1) {
		await page.getByLabel('Side by side').nth(i).focus();
		await page.keyboard.press('Space');
	}
	await page.locator('.side-by-side table').waitFor();
	await press('Remove first');
	await has('.kept-list *');
});

test('the content security policy allows nothing inline and nothing from elsewhere', async () => {
	const { page } = await built.open();
	const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
	expect(policy).toContain("default-src 'none'; script-src 'self'; style-src 'self'; worker-src 'self'");
	expect(policy).not.toContain('unsafe');
	const html = await (await fetch(built.address())).text();
	expect(html).not.toMatch(/<script(?![^>]*\ssrc=)|<style|\sstyle=|\son\w+=/);
	// that nothing on the page runs into it is part of every test here: errors of the console fail them
	await firstFigures(page);
	await page.waitForFunction(() => document.querySelectorAll('.chart-host svg').length === 5);
	// nor does anything try and catch, to choose other code than in Node
	const scripts: string[] = await page.evaluate(() =>
		performance.getEntriesByType('resource').flatMap(({ name }) => (name.endsWith('.js') ? [name] : [])),
	);
	expect(scripts.length).toBeGreaterThan(3);
	for (const script of scripts) {
		expect(/exports=eval\b/.test(await (await fetch(script)).text()), script).toBe(false);
	}
});

test('pointing at the counted errors reads out their figures', async () => {
	const { page } = await built.open();
	await runStudy(page, 24);
	await page.waitForFunction(() => document.querySelectorAll('.chart-host svg').length === 5);
	const chart = page.locator('.errors .chart-host').first();
	await chart.scrollIntoViewIfNeeded();
	const box = await chart.boundingBox();
	if (!box) throw new Error('no chart');
	await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
	await page.mouse.move(box.x + box.width / 2 + 3, box.y + box.height / 2);
	await expect
		.poll(() => page.locator('.errors .readout').first().textContent())
		.toMatch(/^−?\d+\.\d+° … −?\d+\.\d+°: half-bus \d+ \(.*%\), virtual neutral \d+ \(.*%\)$/);
});

test.each(['light', 'dark'] as const)('axe finds nothing against WCAG 2.2 AA in the %s theme', async (colorScheme) => {
	const { page } = await built.open({ colorScheme });
	await runStudy(page, 12);
	await page.waitForFunction(() => document.querySelectorAll('.chart-host svg').length === 5);
	await page.getByLabel('Drives to build').fill('many');
	await page.getByText('Table: errors by bin').click();
	const { violations } = await new AxeBuilder({ page })
		.withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
		.analyze();
	expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
});

test('pointing at each mean of a sector tells it, and the picture stays where it is', async () => {
	const { page } = await built.open();
	await runStudy(page, 24);
	await page.waitForFunction(() => document.querySelectorAll('.chart-host svg').length === 5);
	const chart = page.locator('.sectors .chart-host');
	const marks = await chart.locator('.mark-symbol path').all();
	expect(marks.length).toBeGreaterThanOrEqual(12);
	await chart.scrollIntoViewIfNeeded();
	const top = (await chart.boundingBox())?.y;
	for (const mark of marks) {
		await mark.hover();
		await page.waitForFunction(() =>
			/mean [−+]?\d/.test(document.querySelector('.sectors .readout')?.textContent ?? ''),
		);
		expect((await chart.boundingBox())?.y).toBe(top);
	}
});

test('a saved picture says what it shows, which mark is which choice, and where its figures are from', async () => {
	const { page } = await built.open();
	await runStudy(page, 24);
	await page.waitForFunction(() => document.querySelectorAll('.chart-host svg').length === 5);
	const svg = (await saved(page, 'paired-differences', 'SVG')).toString();
	const words = [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map(([, text]) => text).join(' ');
	expect(words).toMatch(
		/^Drives in the colour of the choice that errs less; above, the median and its 95.% interval half-bus virtual neutral/,
	);
	expect(words).toMatch(/24 V fan · at slow · seed demo · simulated estimates/);
	expect(svg).not.toContain('var(--');
	expect((await saved(page, 'paired-differences', 'PNG')).subarray(1, 4).toString()).toBe('PNG');
	const table = (await saved(page, 'paired-differences', 'CSV')).toString();
	expect(table.split('\n')[0]).toMatch(/from.*to.*count/);
});

test('nothing sticks out to the side at 390 px, nor at 320, in any demo scenario', async () => {
	const { page } = await built.open({ width: 390, height: 844 });
	const demos = readdirSync(`${projectRoot}scenarios`).filter((name) => /(?<!schema)\.json$/.test(name));
	expect(await page.getByLabel('Scenario', { exact: true }).locator('option').count()).toBe(demos.length);
	await page.getByLabel('Drives to build').fill('8');
	for (let i = 0; i < demos.length; i++) {
		await page.getByLabel('Scenario', { exact: true }).selectOption({ index: i });
		await page.getByRole('button', { name: 'Run' }).click();
		await page.getByText(/^Finished in/).waitFor();
		await page.waitForFunction(() => document.querySelectorAll('.chart-host svg').length >= 3);
		expect(await overflow(page)).toBeLessThanOrEqual(0);
		expect(await overflowAt320(page)).toBe(0);
		await page.setViewportSize({ width: 390, height: 844 });
	}
});

test('rates of crossings that go wrong by the thousand an hour are in sight at 390 px, hours included', async () => {
	const { page } = await built.open();
	await page.getByLabel('Drives to build').fill('60');
	await page.getByLabel('star resistor: mismatch tolerance').fill('5 %');
	await page.getByRole('button', { name: 'Run', exact: true }).click();
	await expect
		.poll(() => page.locator('.rates tbody').first().textContent(), { timeout: 30_000 })
		.toMatch(/virtual neutral\d{2}.*\d\u202f000$/);
	await page.setViewportSize({ width: 390, height: 844 });
	const place = page.locator('.rates .scroll');
	expect(await place.evaluate(({ scrollWidth, clientWidth }) => scrollWidth - clientWidth)).toBe(0);
});

test('what loads before the charts is at most 120 kB gzipped', async () => {
	const folder = await ensureBuilt('page');
	const html = readFileSync(`${folder}index.html`, 'utf8');
	const scripts = [...html.matchAll(/(?:src|href)="\.\/([^"]+\.js)"/g)].map(([, path]) => `${folder}${path}`);
	const kilobytes = scripts.map((path) => gzipSync(readFileSync(path)).length / 1000).reduce((a, b) => a + b, 0);
	console.log(`initial script: ${kilobytes.toFixed(1)} kB gzipped`);
	expect(scripts.length).toBeGreaterThan(0);
	expect(kilobytes).toBeLessThanOrEqual(120);
});
