import { readFileSync } from 'node:fs';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

/** Opens a view by its link while the page's own run waits, so that the question is asked with few drives. */
export async function ask(page: Page, field: string, typed: string): Promise<void> {
	await page.getByLabel('Drives to build').fill('12');
	await page.getByLabel(field).fill(typed);
	await page.getByRole('form', { name: 'Study' }).getByRole('button', { name: 'Run', exact: true }).click();
	await page.getByText(/^Finished in/).waitFor({ timeout: 60_000 });
	const run = page.locator('.ask-bar');
	const again = run.getByRole('button', { name: /^Run/ });
	if ((await again.count()) > 0) await again.click();
	await answered(page);
}
/** The question's run is over. */
export const answered = (page: Page) =>
	page.locator('.ask-bar .progress', { hasText: /, in \d/ }).waitFor({ timeout: 100_000 });
/** A picture saved as a file. */
export const saved = async (page: Page, name: string, kind: string): Promise<Buffer> => {
	const [download] = await Promise.all([
		page.waitForEvent('download'),
		page.getByRole('button', { name: `Save ${name} as ${kind}` }).click(),
	]);
	return readFileSync(await download.path());
};
/** What axe finds. */
export const axe = async (page: Page): Promise<readonly string[]> => {
	const { violations } = await new AxeBuilder({ page })
		.withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
		.analyze();
	return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
};
/** What is wider than its place, every table unfolded: the page itself, and whatever would have to be scrolled sideways. */
export const tooWide = async (page: Page): Promise<readonly string[]> => {
	const folded = page.locator('main details:not([open]) > summary');
	while ((await folded.count()) > 0) await folded.first().click();
	return page.evaluate(() =>
		[...document.querySelectorAll<HTMLElement>('html, main *')]
			.filter(
				(element) =>
					element.scrollWidth > element.clientWidth + 1 &&
					(element === document.documentElement || ['auto', 'scroll'].includes(getComputedStyle(element).overflowX)),
			)
			.map(
				({ tagName, className, scrollWidth, clientWidth }) =>
					`${tagName}.${className}: ${scrollWidth} in ${clientWidth} px`,
			),
	);
};
/** By how many pixels the page is wider than its window; below 0 where it is narrower. */
export const overflow = (page: Page): Promise<number> =>
	page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
/** The same at 320 px, the width that text of 400 % leaves of 1280 (WCAG 2.2, 1.4.10); 0 where it fits. */
export const overflowAt320 = async (page: Page): Promise<number> => {
	await page.setViewportSize({ width: 320, height: 740 });
	// pictures are drawn anew a little later
	for (let tries = 0; tries < 20 && (await overflow(page)) > 0; tries++) await page.waitForTimeout(100);
	return Math.max(0, await overflow(page));
};
