import { existsSync, readdirSync } from 'node:fs';
import { playwright } from '@vitest/browser-playwright';
import type { UserConfig } from 'vite';
import { defineConfig, type TestProjectInlineConfiguration } from 'vitest/config';
import { carried } from './src/tooling/carried-plugin.mjs';
import { findBrowser } from './src/tooling/find-browser.mjs';
import { offline } from './src/tooling/offline-plugin.mjs';
import { projectRoot } from './src/tooling/project.mjs';
import { withoutEval } from './src/tooling/without-eval.mjs';

/** `vite build` builds the page, `vite build --ssr` the command line; vitest has its three projects. */
export default defineConfig(async ({ command, isSsrBuild }) => {
	if (command === 'build') return isSsrBuild ? commandLine() : page();
	return { test: { projects: await testProjects() } };
});

/** Static files that work from any folder and under `script-src 'self'`. */
function page(): UserConfig {
	return {
		root: `${projectRoot}src/page`,
		base: './',
		plugins: [offline()],
		resolve: { alias: withoutEval },
		build: {
			outDir: `${projectRoot}dist/page`,
			emptyOutDir: true,
			target: 'es2023',
			modulePreload: { polyfill: false },
			assetsInlineLimit: 0,
			// the charts, which are loaded after the page
			chunkSizeWarningLimit: 1500,
			rolldownOptions: { checks: { bundlerTimings: false } },
		},
		// of plugins a worker's build knows only its own
		worker: { format: 'es', plugins: () => [carried()], rolldownOptions: { checks: { bundlerTimings: false } } },
	};
}

/** Plain JavaScript with everything in it: one file for each command and one for the worker, side by side. */
function commandLine(): UserConfig {
	return {
		plugins: [carried()],
		build: {
			ssr: true,
			outDir: `${projectRoot}dist/command-line`,
			emptyOutDir: true,
			target: 'node20',
			rolldownOptions: {
				input: commandLineEntries(),
				checks: { bundlerTimings: false },
				// flat, so that new URL('./node-worker.js', import.meta.url) holds in every chunk
				output: { entryFileNames: '[name].js', chunkFileNames: '[name]-[hash].js' },
			},
		},
		ssr: { noExternal: true, target: 'node' },
	};
}

function commandLineEntries(): Record<string, string> {
	const entries: Record<string, string> = {};
	const folder = `${projectRoot}src/command-line/`;
	for (const file of readdirSync(folder)) {
		if (file.endsWith('.command.ts')) entries[file.replace('.command.ts', '')] = folder + file;
	}
	const worker = `${projectRoot}workers/node-worker.ts`;
	if (existsSync(worker)) entries['node-worker'] = worker;
	return entries;
}

async function testProjects(): Promise<TestProjectInlineConfiguration[]> {
	const inNode: TestProjectInlineConfiguration[] = [
		{
			plugins: [carried()],
			test: {
				name: 'unit',
				include: ['tests/**/*.test.{ts,tsx}'],
				exclude: ['tests/browser/**', 'tests/end-to-end/**'],
				// a busy machine is no failure
				testTimeout: 30_000,
			},
		},
		{
			test: {
				name: 'end-to-end',
				include: ['tests/end-to-end/**/*.e2e.test.ts'],
				testTimeout: 60_000,
				hookTimeout: 60_000,
				// each file has a browser and worker processes of its own
				fileParallelism: false,
			},
		},
	];
	return isAskedFor('browser') ? [...inNode, await browserProject()] : inNode;
}

async function browserProject(): Promise<TestProjectInlineConfiguration> {
	return {
		worker: { format: 'es' },
		// a package first met inside a worker would reload the page in the middle of a test
		optimizeDeps: { entries: ['tests/browser/**/*.ts', 'workers/browser-worker.ts'] },
		test: {
			name: 'browser',
			include: ['tests/browser/**/*.browser.test.{ts,tsx}'],
			// runs the same study in Node for the browser to compare
			globalSetup: ['tests/browser/node-digest.setup.ts'],
			testTimeout: 60_000,
			fileParallelism: false,
			browser: {
				enabled: true,
				headless: true,
				screenshotFailures: false,
				provider: playwright({ launchOptions: await findBrowser() }),
				instances: [{ browser: 'chromium' }],
			},
		},
	};
}

/** A missing browser must not stop a run of the other projects, and must stop every other run. */
function isAskedFor(project: string): boolean {
	const asked = process.argv.flatMap((word, index, all) =>
		word === '--project' ? (all[index + 1] ?? []) : word.startsWith('--project=') ? word.slice(10) : [],
	);
	return asked.length === 0 || asked.includes(project);
}
