import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, expect, onTestFinished } from 'vitest';
import { ensureBuilt } from '../../src/tooling/ensure-built.mjs';
import { findBrowser } from '../../src/tooling/find-browser.mjs';
import { serveFolder } from '../../src/tooling/serve-folder.mjs';

interface Opened {
	readonly page: Page;
	/** Errors of the console and of scripts so far; violations of the content security policy are among them. */
	readonly errors: readonly string[];
}

interface OpenOptions {
	readonly width?: number;
	readonly height?: number;
	readonly colorScheme?: 'light' | 'dark';
	/** A screen that is touched. */
	readonly hasTouch?: boolean;
	/** Before the page's own scripts. */
	readonly prepare?: (page: Page) => Promise<unknown>;
	/** Whether the test expects errors and looks at them itself. */
	readonly mayFail?: boolean;
	/** What follows the address, from # on. */
	readonly hash?: string;
}

/** The built page in a real browser, one browser for all tests of a file. */
export function builtPage() {
	let browser: Browser;
	let server: Awaited<ReturnType<typeof serveFolder>>;
	beforeAll(async () => {
		server = await serveFolder(await ensureBuilt('page'));
		browser = await chromium.launch(await findBrowser());
	}, 120_000);
	afterAll(async () => {
		await browser?.close();
		await server?.close();
	});

	return {
		address: () => server.address,
		browser: () => browser,
		/** A fresh page; unless it may fail, the test fails with any error of its console. */
		async open({
			width = 1280,
			height = 720,
			colorScheme = 'light',
			hasTouch = false,
			prepare,
			mayFail,
			hash = '',
		}: OpenOptions = {}): Promise<Opened> {
			const context = await browser.newContext({ viewport: { width, height }, colorScheme, hasTouch });
			const page = await context.newPage();
			const errors: string[] = [];
			page.on('console', (message) => {
				if (message.type() === 'error') errors.push(message.text());
			});
			page.on('pageerror', (error) => errors.push(error.message));
			await prepare?.(page);
			onTestFinished(async () => {
				await context.close();
				if (!mayFail) expect(errors).toEqual([]);
			});
			await page.goto(server.address + hash);
			return { page, errors };
		},
	};
}

/** The first figures of the study that starts with the page. */
export const firstFigures = (page: Page) => page.locator('.lead').waitFor({ timeout: 30_000 });

/** Runs a study of so many drives to its end. */
export async function runStudy(page: Page, units: number, seed = 'demo'): Promise<void> {
	await page.getByLabel('Drives to build').fill(String(units));
	await page.getByLabel('Seed').fill(seed);
	await page.getByRole('button', { name: 'Run', exact: true }).click();
	await page.getByText(/^Finished in/).waitFor({ timeout: 50_000 });
}

/** One row of the list of what the figures rest on. */
export const restsOn = (page: Page, term: string) =>
	page
		.locator('.provenance dl > div', { has: page.getByText(term, { exact: true }) })
		.locator('dd')
		.textContent();
