import { pathToFileURL } from 'node:url';
import { countKernel } from './count-kernel-plugin.mjs';
import { ensureBuilt } from './ensure-built.mjs';
import { ensureInstalled } from './ensure-installed.mjs';
import { findBrowser } from './find-browser.mjs';
import { loadFromTests } from './load-from-tests.mjs';
import { projectRoot, say } from './project.mjs';
import { serveFolder } from './serve-folder.mjs';

/*
 * node src/tooling/bench.mjs …arguments
 *
 * The bench measures the built product against an integrator that only tests
 * need, so it lies with the tests and is built beside the product, not into it;
 * and once more, in part, with a kernel that counts what it does.
 */
try {
	await ensureInstalled();
	const product = await ensureBuilt('command-line');
	const { bench } = await loadFromTests('bench', 'tests/bench/bench.command.ts', { external: ['playwright-core'] });
	process.exitCode = await bench(process.argv.slice(2), {
		product: pathToFileURL(product),
		scenarioFolder: `${projectRoot}scenarios/`,
		startProgram: `${projectRoot}src/tooling/start.mjs`,
		baselineFile: `${projectRoot}tests/bench/baseline.json`,
		page: { build: () => ensureBuilt('page'), findBrowser, serve: serveFolder },
		async counts() {
			const plugins = [countKernel()];
			return (await loadFromTests('kernel-counts', 'tests/bench/kernel-counts.ts', { plugins })).kernelCounts;
		},
	});
} catch (error) {
	say(error instanceof Error ? (error.stack ?? error.message) : String(error));
	process.exitCode = 1;
}
