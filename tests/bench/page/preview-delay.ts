import type { Page } from 'playwright-core';

/**
 * Milliseconds from a key typed into a part's tolerance to the first frame in
 * which the picture of the errors shows figures of the edited scenario, edit
 * after edit while the full number of the one before may still be running.
 */
export async function previewDelays(page: Page, edits: number): Promise<readonly number[]> {
	await page.locator('.errors .chart-host svg').first().waitFor();
	const field = page.getByLabel('star resistor: mismatch tolerance');
	await field.scrollIntoViewIfNeeded();
	await page.evaluate(() => {
		const counted = document.querySelector('.errors .chart-host');
		let typedAt = 0;
		const delays: number[] = [];
		Object.assign(globalThis, { previewDelays: delays });
		addEventListener(
			'input',
			(event) => {
				typedAt = event.timeStamp;
			},
			true,
		);
		const isPreview = (): boolean =>
			[...document.querySelectorAll('.reservation')].some((one) => one.textContent?.startsWith('A preview'));
		if (!counted) throw new Error('no picture');
		new MutationObserver(() => {
			if (typedAt === 0 || !isPreview()) return;
			const began = typedAt;
			typedAt = 0;
			requestAnimationFrame(() => setTimeout(() => delays.push(performance.now() - began)));
		}).observe(counted, { subtree: true, attributes: true, childList: true });
	});
	await field.focus();
	for (let edit = 0; edit < edits; edit += 1) {
		await field.press('Control+a');
		// a digit that no edit before had: figures that are known need no preview
		await field.pressSequentially(`${1 + edit / 10} %`, { delay: 0 });
		await page.waitForFunction(
			(wanted) => (globalThis as unknown as { previewDelays: number[] }).previewDelays.length > wanted,
			edit,
		);
		// as one who looks before typing on
		await page.waitForTimeout(600);
	}
	return page.evaluate(() => (globalThis as unknown as { previewDelays: number[] }).previewDelays);
}
