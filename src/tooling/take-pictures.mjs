import { chromium } from 'playwright-core';
import { ensureBuilt } from './ensure-built.mjs';
import { ensureInstalled } from './ensure-installed.mjs';
import { findBrowser } from './find-browser.mjs';
import { projectRoot, say } from './project.mjs';
import { serveFolder } from './serve-folder.mjs';

/*
 * npm run pictures [NAME …]
 *
 * Takes the pictures of the page that the README shows, all or those named, of
 * the first demo scenario as it is built now.
 */

/** @typedef {import('playwright-core').Page} Page */

const folder = `${projectRoot}src/page/pictures/`;
/** Long enough for every question on a busy machine. */
const patience = 600_000;

/** @param {Page} page */
const rest = (page) => page.getByText(/^Finished in/).waitFor({ timeout: patience });
/** @param {Page} page */
const answered = (page) => page.locator('.ask-bar .progress', { hasText: /, in \d/ }).waitFor({ timeout: patience });

/**
 * What leads from the page as it opens to each picture.
 * @type {Readonly<Record<string, (page: Page) => Promise<unknown>>>}
 */
const ways = {
	'which-choice': async (page) => {
		await page.locator('.errors .chart-host svg').first().waitFor({ timeout: patience });
	},
	'what-changed': async (page) => {
		await page.getByRole('button', { name: 'Pin as baseline' }).click();
		await page.getByLabel('star resistor: mismatch tolerance').fill('0.1 %');
		await rest(page);
		await page.getByLabel('bus divider, top: mismatch tolerance').fill('0.1 %');
		await rest(page);
		await page.getByRole('link', { name: 'What changed', exact: true }).click();
		await page.locator('.attribution').waitFor({ timeout: patience });
	},
	'one-drive': async (page) => {
		await page.getByRole('link', { name: 'One drive', exact: true }).click();
		await page.locator('.waveform-picture').waitFor({ timeout: patience });
		await page.locator('.diagnosis').first().waitFor({ timeout: patience });
	},
	grades: (page) => asked(page, 'What grade'),
	origins: (page) => asked(page, 'What drives the spread'),
	limits: (page) => asked(page, 'Where it stops'),
	sign: async (page) => {
		await page.getByRole('link', { name: 'What we sign', exact: true }).click();
		await page.locator('.sign-panel svg.marks').waitFor({ timeout: patience });
	},
};

/**
 * @param {Page} page
 * @param {string} view
 */
async function asked(page, view) {
	await page.getByRole('link', { name: view, exact: true }).click();
	await answered(page);
	// drawn a moment after the answer
	await page.waitForTimeout(1500);
}

try {
	const names = process.argv.length > 2 ? process.argv.slice(2) : Object.keys(ways);
	for (const name of names) {
		if (!(name in ways)) throw new Error(`There is no picture ${name}: ${Object.keys(ways).join(', ')}.`);
	}
	await ensureInstalled();
	const server = await serveFolder(await ensureBuilt('page'));
	const browser = await chromium.launch(await findBrowser());
	for (const name of names) {
		say(`taking ${name} …`);
		const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, reducedMotion: 'reduce' });
		const page = await context.newPage();
		await page.goto(server.address);
		await rest(page);
		await ways[name]?.(page);
		await page.evaluate('scrollTo(0, 0)');
		await page.mouse.move(0, 0);
		await page.screenshot({ path: `${folder}${name}.png` });
		await context.close();
	}
	await browser.close();
	await server.close();
} catch (error) {
	say(error instanceof Error ? (error.stack ?? error.message) : String(error));
	process.exitCode = 1;
}
