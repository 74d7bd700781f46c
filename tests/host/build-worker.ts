import { mkdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'vite';

/** Builds a worker entry as the command line's build does, and returns its URL. @param entry path from the project's root */
export async function buildWorker(entry: string): Promise<URL> {
	const outDir = resolve(`node_modules/.cache/test-workers/${process.pid}-${entry.replaceAll(/\W/g, '-')}`);
	mkdirSync(outDir, { recursive: true });
	await build({
		configFile: false,
		logLevel: 'error',
		build: { ssr: true, outDir, target: 'node20', rolldownOptions: { input: { worker: resolve(entry) } } },
		ssr: { noExternal: true, target: 'node' },
	});
	return pathToFileURL(`${outDir}/worker.js`);
}
