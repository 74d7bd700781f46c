import { readFileSync } from 'node:fs';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { answered, ask, overflow, overflowAt320 } from './ask-question.ts';
import { builtPage, restsOn, runStudy } from './open-page.ts';

const built = builtPage();
const link = (page: Page) => page.getByLabel('Link', { exact: true }).inputValue();
const open = (page: Page, name: string) => page.getByRole('link', { name, exact: true }).click();
const ended = (page: Page) => page.getByText(/^Finished in/).waitFor({ timeout: 50_000 });

async function keep(page: Page, note: string): Promise<void> {
	await open(page, 'Keep and share');
	await page.getByLabel('Note', { exact: true }).fill(note);
	const before = await page.locator('.kept-list li').count();
	await page.getByRole('button', { name: 'Keep in this browser' }).click();
	await expect.poll(() => page.locator('.kept-list li').count()).toBe(before + 1);
	expect(await page.locator('.said').textContent()).toMatch(/^Kept as “/);
}

test('a result is kept with name and note, outlives a reload, and opens with the same digest without another run', async () => {
	const { page } = await built.open();
	await runStudy(page, 24, 'kept');
	const digest = await restsOn(page, 'Result digest');
	await keep(page, 'before the <b>new</b> divider');
	await open(page, 'Which choice');
	await runStudy(page, 6, 'another');
	await page.reload();
	await open(page, 'Keep and share');
	const item = page.locator('.kept-list li');
	expect(await item.locator('h4').textContent()).toBe('24 V fan, 24 drives');
	expect(await item.locator('.note').textContent()).toBe('before the <b>new</b> divider');
	await page.getByRole('button', { name: 'Open 24 V fan, 24 drives' }).click();
	await expect.poll(() => restsOn(page, 'Result digest')).toBe(digest);
	expect(await page.getByLabel('Seed').inputValue()).toBe('kept');
	expect(await page.locator('.setup .progress').textContent()).toBe('Figures kept as “24 V fan, 24 drives”.');
});

test('two kept results stand side by side with what was asked otherwise; one is renamed and one removed', async () => {
	const { page } = await built.open();
	await runStudy(page, 12, 'one');
	await keep(page, '');
	await open(page, 'Which choice');
	await runStudy(page, 18, 'two');
	await keep(page, '');
	for (const box of await page.getByRole('checkbox', { name: /^Side by side/ }).all()) await box.check();
	const table = page.locator('.side-by-side table');
	const rows = await table.locator('tbody').first().locator('tr').allInnerTexts();
	expect(rows.join('\n')).toMatch(/drives\s+18\s+12[\s\S]*seed\s+two\s+one/);
	expect(await table.locator('tbody').count()).toBe(4);
	await page.getByRole('button', { name: 'Name and note of 24 V fan, 18 drives' }).click();
	await page.locator('.edit').getByLabel('Name').fill('Released');
	await page.getByRole('button', { name: 'Keep the change' }).click();
	await page.getByRole('button', { name: 'Remove 24 V fan, 12 drives' }).click();
	await expect.poll(() => page.locator('.kept-list h4').allInnerTexts()).toEqual(['Released']);
	expect(await table.count()).toBe(0);
});

test('a link opened elsewhere gives the same scenario, drives, seed and result', async () => {
	const first = await built.open();
	await first.page.getByLabel('Scenario', { exact: true }).selectOption({ index: 1 });
	await runStudy(first.page, 10, 'shared & sent');
	const digest = await restsOn(first.page, 'Result digest');
	await open(first.page, 'Keep and share');
	await expect.poll(() => link(first.page)).toContain('work=');
	const address = await link(first.page);
	expect(address.length).toBeLessThan(2500);
	const second = await built.open({ hash: new URL(address).hash });
	await ended(second.page);
	expect(await restsOn(second.page, 'Result digest')).toBe(digest);
	expect(await second.page.getByLabel('Seed').inputValue()).toBe('shared & sent');
	expect(await second.page.evaluate(() => location.hash)).toBe('#which-choice');
});

test.each([
	['cut short', (whole: string) => whole.slice(0, whole.length / 2)],
	['of strange signs', () => '%3Cscript%3E'],
	['of nothing packed', () => 'AAAA'],
	['of 200,000 signs', () => 'A'.repeat(200_000)],
])('a link %s is told of in words, and the page goes on with its first demo', async (_name, broken) => {
	const { page } = await built.open();
	await open(page, 'Keep and share');
	await expect.poll(() => link(page)).toContain('work=');
	const code = new URLSearchParams(new URL(await link(page)).hash.split('?')[1]).get('work') ?? '';
	const other = await built.open({ hash: `#which-choice?work=${broken(code)}` });
	await expect.poll(() => other.page.getByRole('alert').textContent()).toMatch(/^The link could not be opened: it /);
	await runStudy(other.page, 6);
});

test('a link that unpacks to 300 MB is refused within a second or so', async () => {
	const { page } = await built.open();
	const code = await page.evaluate(async () => {
		const packed = new Blob(Array.from({ length: 300 }, () => new Uint8Array(1e6)))
			.stream()
			.pipeThrough(new CompressionStream('deflate-raw'));
		const bytes = new Uint8Array(await new Response(packed).arrayBuffer());
		let signs = '';
		for (const byte of bytes) signs += String.fromCharCode(byte);
		return btoa(signs).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '').slice(0, 99_996);
	});
	const other = await built.open({ hash: `#which-choice?work=${code}` });
	await expect
		.poll(() => other.page.getByRole('alert').textContent())
		.toMatch(/unpacks to more than|cannot be unpacked/);
});

test('a link whose scenario has problems lists them and runs nothing', async () => {
	const { page } = await built.open();
	const code = await page.evaluate(async () => {
		const work = { scenario: '{"name":"x","points":[{"name":"a","speed":-5}]}', units: '10', seed: 's' };
		const packed = new Blob([JSON.stringify(work)]).stream().pipeThrough(new CompressionStream('deflate-raw'));
		const bytes = new Uint8Array(await new Response(packed).arrayBuffer());
		return btoa(String.fromCharCode(...bytes))
			.replaceAll('+', '-')
			.replaceAll('/', '_')
			.replace(/=+$/, '');
	});
	const other = await built.open({ hash: `#which-choice?work=${code}` });
	await expect
		.poll(() => other.page.getByRole('alert').textContent())
		.toMatch(/^the link has \d problems and was not run/);
	await other.page.getByLabel('Scenario', { exact: true }).selectOption({ index: 0 });
	await runStudy(other.page, 6);
});

test('after a reload the page comes back: view, edited scenario, drives, seed, point, figures and baseline, without another run', async () => {
	const { page } = await built.open();
	await runStudy(page, 20, 'again');
	await page.getByRole('button', { name: 'Pin as baseline' }).click();
	const top = page.locator('[data-field="sensing.divider.top value"]');
	await top.fill('24k');
	await ended(page);
	await page.getByRole('tab', { name: /rated/ }).click();
	const digest = await restsOn(page, 'Result digest');
	await page.waitForTimeout(600);
	await page.reload();
	await expect
		.poll(() => page.locator('.setup .progress').textContent())
		.toBe('Figures as they were when the page was left.');
	expect(await restsOn(page, 'Result digest')).toBe(digest);
	expect(await page.getByLabel('Seed').inputValue()).toBe('again');
	expect(await page.getByLabel('Drives to build').inputValue()).toBe('20');
	expect(await page.getByRole('tab', { selected: true }).textContent()).toMatch(/^rated/);
	expect(await top.inputValue()).toBe('24 kΩ');
	await page.getByText('Baseline: 24 V fan, 20 drives, seed again').waitFor();
	await page.locator('.changed', { hasText: 'on the same 20 drives' }).waitFor({ timeout: 40_000 });
	await page.getByRole('button', { name: 'Undo' }).click();
	expect(await top.inputValue()).toBe('22 kΩ');
	await page.getByText('(on show)').waitFor({ timeout: 40_000 });
});

/** Notes every thread that the page starts. */
const watchThreads = (page: Page) =>
	page.addInitScript(() => {
		const threads: string[] = [];
		Object.assign(globalThis, { threads });
		globalThis.Worker = class extends Worker {
			constructor(url: string | URL, options?: WorkerOptions) {
				super(url, options);
				threads.push(String(url));
			}
		};
	});
/** Whether the longer questions' thread was started since the page was loaded. */
const wasAsked = (page: Page): Promise<boolean> =>
	page.evaluate(
		() => (globalThis as { threads?: string[] }).threads?.some((url) => url.includes('questions')) ?? false,
	);
const earlierRun = 'Figures of an earlier run of the same inputs.';

test('after a reload the answer of a longer question and its baseline are there at once, and no engine is asked', async () => {
	const { page } = await built.open({ hash: '#grades', prepare: watchThreads });
	await ask(page, 'Drives in each run', '12');
	expect(await wasAsked(page)).toBe(true);
	await page.getByRole('button', { name: 'Pin as baseline' }).click();
	await page.getByLabel('star resistor: mismatch tolerance').fill('5 %');
	await page.getByRole('button', { name: 'Run again' }).click();
	await page.locator('.changed').waitFor({ timeout: 100_000 });
	await answered(page);
	// where the rows are blocks, what the baseline had stands below the figure, not before it
	await page.setViewportSize({ width: 390, height: 844 });
	const cell = page.locator('.choice-table td', { has: page.locator('small.was') }).first();
	const [figure, was] = await cell.evaluate((td) => {
		const range = document.createRange();
		range.selectNodeContents(td.firstChild ?? td);
		return [range.getBoundingClientRect().bottom, td.querySelector('.was')?.getBoundingClientRect().top ?? 0];
	});
	expect(was).toBeGreaterThanOrEqual((figure ?? Infinity) - 4);
	await page.setViewportSize({ width: 1280, height: 720 });
	const [sentence, changed] = [page.locator('.sentence'), page.locator('main .changed')];
	const before = [await sentence.textContent(), await changed.textContent()];
	await page.waitForTimeout(600);
	await page.reload();
	await page.locator('.ask-bar .progress', { hasText: earlierRun }).waitFor({ timeout: 5000 });
	expect(await sentence.textContent()).toBe(before[0]);
	await expect.poll(() => changed.textContent()).toBe(before[1]);
	await page.waitForTimeout(1500);
	expect(await wasAsked(page)).toBe(false);

	// asked otherwise nothing is found
	await page.getByLabel('Drives in each run').fill('13');
	await page.locator('.ask-bar.is-stale').waitFor();
	await page.getByRole('button', { name: 'Run again' }).click();
	await answered(page);
	expect(await wasAsked(page)).toBe(true);
}, 240_000);

test('an answer that was changed where it is stored is asked anew, and takes the place of what was there', async () => {
	const { page } = await built.open({ hash: '#grades', prepare: watchThreads });
	await ask(page, 'Drives in each run', '12');
	const sentence = await page.locator('.sentence').textContent();
	await page.waitForTimeout(600);
	await page.evaluate(async () => {
		const database = await new Promise<IDBDatabase>((resolve, reject) => {
			const request = indexedDB.open('anglespread');
			request.onsuccess = () => resolve(request.result);
			request.onerror = () => reject(request.error);
		});
		const store = database.transaction('session', 'readwrite').objectStore('session');
		const stored = await new Promise<{ result: { exact: unknown } }[]>((resolve) => {
			const request = store.get('answers grades');
			request.onsuccess = () => resolve(request.result);
		});
		for (const { result } of stored) result.exact = '<img src=x onerror=alert(1)>';
		await new Promise((resolve) => {
			store.put([...stored, null, { asked: 3 }], 'answers grades').onsuccess = resolve;
		});
		database.close();
	});
	await page.reload();
	await answered(page);
	expect(await wasAsked(page)).toBe(true);
	expect(await page.locator('.sentence').textContent()).toBe(sentence);
	await page.waitForTimeout(600);
	await page.reload();
	await page.locator('.ask-bar .progress', { hasText: earlierRun }).waitFor({ timeout: 5000 });
	expect(await wasAsked(page)).toBe(false);
}, 240_000);

test('broken and hostile stored records are told of, used for nothing and can be removed', async () => {
	const { page } = await built.open();
	await runStudy(page, 6);
	await keep(page, '');
	await page.evaluate(async () => {
		localStorage.setItem('anglespread session', '{"file":"x","base":[],"text":"<img src=x onerror=alert(1)>"}');
		const database = await new Promise<IDBDatabase>((resolve, reject) => {
			const request = indexedDB.open('anglespread');
			request.onsuccess = () => resolve(request.result);
			request.onerror = () => reject(request.error);
		});
		const whole = await new Promise<Record<string, unknown>[]>((resolve) => {
			const request = database.transaction('results').objectStore('results').getAll();
			request.onsuccess = () => resolve(request.result);
		});
		const stores = database.transaction(['results', 'session'], 'readwrite');
		stores.objectStore('results').put({ id: 'nothing' });
		stores
			.objectStore('results')
			.put({ ...whole[0], id: 'changed', name: '<img src=x onerror=alert(1)>', result: { points: 3 } });
		stores.objectStore('session').put({ work: 1, result: 'none' }, 'last');
		await new Promise((resolve) => {
			stores.oncomplete = resolve;
		});
		database.close();
	});
	await page.reload();
	await page.locator('.kept-list li').first().waitFor();
	const broken = page.locator('.kept-list .broken');
	expect(await broken.count()).toBe(2);
	expect((await broken.allInnerTexts()).join('\n')).toMatch(/is not what this version keeps there/);
	expect(await page.locator('.kept-list img').count()).toBe(0);
	await broken.first().getByRole('button', { name: 'Remove it' }).click();
	await expect.poll(() => broken.count()).toBe(1);
	await open(page, 'Which choice');
	await runStudy(page, 6);
});

test('a browser that refuses storage leaves a page that works and says what it cannot keep', async () => {
	const { page } = await built.open({
		prepare: (page) =>
			page.addInitScript(() => {
				Object.defineProperty(globalThis, 'localStorage', {
					get() {
						throw new DOMException('not allowed', 'SecurityError');
					},
				});
				IDBFactory.prototype.open = () => {
					throw new DOMException('not allowed', 'SecurityError');
				};
			}),
	});
	await runStudy(page, 6);
	await open(page, 'Keep and share');
	await expect
		.poll(() => page.getByRole('alert').textContent())
		.toMatch(/The kept results could not be read: not allowed/);
	await open(page, 'What grade');
	await ask(page, 'Drives in each run', '12');
	expect(await page.locator('.sentence').textContent()).toMatch(/^Of the sensing resistors, /);
});

test('the scenario is saved as a file that opens again', async () => {
	const { page } = await built.open();
	await runStudy(page, 6);
	const digest = await restsOn(page, 'Scenario digest');
	await open(page, 'Keep and share');
	const [download] = await Promise.all([
		page.waitForEvent('download'),
		page.getByRole('button', { name: 'Save the scenario file' }).click(),
	]);
	expect(download.suggestedFilename()).toBe('24-v-fan.json');
	const other = await built.open();
	const buffer = readFileSync(await download.path());
	await other.page
		.locator('.open input[type=file]')
		.setInputFiles({ name: 'again.json', mimeType: 'application/json', buffer });
	await runStudy(other.page, 6);
	expect(await restsOn(other.page, 'Scenario digest')).toBe(digest);
});

test.each(['light', 'dark'] as const)('axe finds nothing on what is kept in the %s theme', async (colorScheme) => {
	const { page } = await built.open({ colorScheme });
	await runStudy(page, 6);
	await keep(page, 'a note');
	await keep(page, 'another');
	for (const box of await page.getByRole('checkbox', { name: /^Side by side/ }).all()) await box.check();
	await page
		.getByRole('button', { name: /^Name and note of/ })
		.first()
		.click();
	const { violations } = await new AxeBuilder({ page })
		.withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
		.analyze();
	expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
});

test('nothing of what is kept sticks out to the side at 390 px, nor at 320', async () => {
	const { page } = await built.open({ width: 390, height: 844 });
	await runStudy(page, 6);
	await keep(page, 'one');
	await keep(page, 'two');
	for (const box of await page.getByRole('checkbox', { name: /^Side by side/ }).all()) await box.check();
	await page.locator('.side-by-side table').waitFor();
	expect(await overflow(page)).toBeLessThanOrEqual(0);
	expect(await overflowAt320(page)).toBe(0);
});
