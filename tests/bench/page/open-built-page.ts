import { type Browser, chromium, type LaunchOptions, type Page } from 'playwright-core';

/** What src/tooling does for the bench; handed in, since the bench is bundled and those files know where they lie. */
export interface PageTools {
	/** Builds the page where needed; its folder, with a trailing slash. */
	readonly build: () => Promise<string>;
	readonly findBrowser: () => Promise<LaunchOptions>;
	readonly serve: (folder: string) => Promise<{ readonly address: string; readonly close: () => Promise<void> }>;
}

/** A browser with the built page, to be measured. */
export interface BuiltPage {
	readonly browser: Browser;
	/** The built files, with a trailing slash. */
	readonly folder: string;
	readonly address: string;
	/** Someone with nothing kept, before the page is opened. */
	visitor(): Promise<Page>;
	/** The same, with the page opened, its first study done and its pictures drawn. */
	opened(): Promise<Page>;
	close(): Promise<void>;
}

export async function openBuiltPage(tools: PageTools): Promise<BuiltPage> {
	const folder = await tools.build();
	const server = await tools.serve(folder);
	const browser = await chromium.launch(await tools.findBrowser());
	const visitor = async (): Promise<Page> =>
		(await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
	return {
		browser,
		folder,
		address: server.address,
		visitor,
		async opened() {
			const page = await visitor();
			await page.goto(server.address);
			await studyEnd(page);
			await page.waitForFunction(() => document.querySelectorAll('.chart-host svg').length === 5);
			return page;
		},
		async close() {
			await browser.close();
			await server.close();
		},
	};
}

/** Begins a study of so many drives from the form; its end is not waited for. */
export async function startStudy(page: Page, units: number, seed: string): Promise<void> {
	await page.getByLabel('Drives to build').fill(String(units));
	await page.getByLabel('Seed').fill(seed);
	await page.getByRole('button', { name: 'Run', exact: true }).click();
	await page.locator('.setup progress').waitFor();
}

/** Long enough for any study here on a busy machine. */
const patience = 600_000;

/** Asked seldom and of one element: looking through the page's text in every frame would be the page's longest work. */
export async function studyEnd(page: Page): Promise<void> {
	await page.waitForFunction(
		() => document.querySelector('.setup p.progress')?.textContent?.startsWith('Finished in'),
		undefined,
		{ timeout: patience, polling: 200 },
	);
}
