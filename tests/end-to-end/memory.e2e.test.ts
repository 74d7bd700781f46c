import { expect, test } from 'vitest';
import { builtPage, runStudy } from './open-page.ts';
import { pageThreads } from './page-threads.ts';

const built = builtPage();

test('after 15 runs the page and its engine hold as many objects as after 5, and no open database', async () => {
	const { page } = await built.open();
	const runs = async (first: number, last: number): Promise<void> => {
		// the last ones of both stretches show the same figures: others have thousands of marks more or fewer
		for (let run = first; run <= last; run += 1) await runStudy(page, 12, `run ${run % 5}`);
		// charts out of view are drawn in a quiet moment
		await page.waitForTimeout(1000);
	};
	await runs(1, 5);
	const [own, ...workers] = await pageThreads(built.browser(), page);
	const engine = workers.find(({ script }) => script.includes('engine-worker'));
	if (!own || !engine) throw new Error('the page has no engine');
	const held = async () => {
		const objects = await own.count('Object.prototype');
		// the engine is told of the units that this collection freed
		await page.waitForTimeout(500);
		return {
			page: objects,
			engine: await engine.count('Object.prototype'),
			databases: await own.count('IDBDatabase.prototype'),
		};
	};
	const before = await held();
	await runs(6, 15);
	const after = await held();
	// marks that charts keep of earlier figures are thousands
	expect(after.page / before.page).toBeLessThan(1.1);
	// a study's units are some tens of objects and a megabyte of numbers; on a busy machine the engine may hear of the last
	// ones only after a further collection
	const engineGrowth = async () => (await held()).engine / before.engine;
	await expect.poll(engineGrowth, { timeout: 30_000 }).toBeLessThan(1.01);
	expect(after.databases).toBe(0);
}, 180_000);
