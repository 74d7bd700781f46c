import { pathToFileURL } from 'node:url';
import { ensureBuilt } from './ensure-built.mjs';
import { ensureInstalled } from './ensure-installed.mjs';
import { findBrowser } from './find-browser.mjs';
import { loadFromTests } from './load-from-tests.mjs';
import { projectRoot, say } from './project.mjs';
import { serveFolder } from './serve-folder.mjs';

/*
 * node src/tooling/bench.mjs …arguments
 *
 * The bench measures the built worker against an integrator that only tests
 * need, so it lies with the tests and is built beside the product, not into it.
 */
try {
	await ensureInstalled();
	const product = await ensureBuilt('command-line');
	const { bench } = await loadFromTests('bench', 'tests/bench/bench.command.ts', ['playwright-core']);
	process.exitCode = await bench(
		process.argv.slice(2),
		pathToFileURL(`${product}node-worker.js`),
		`${projectRoot}scenarios/`,
		{ build: () => ensureBuilt('page'), findBrowser, serve: serveFolder },
	);
} catch (error) {
	say(error instanceof Error ? (error.stack ?? error.message) : String(error));
	process.exitCode = 1;
}
