import { pathToFileURL } from 'node:url';
import { cacheFolder, projectRoot } from './project.mjs';

/**
 * Builds a command that lies with the tests, since it needs what only tests
 * need, beside the product and not into it, and loads it.
 *
 * @param {string} name of the folder it is built to
 * @param {string} entry path from the project's root
 * @param {{ external?: readonly string[]; plugins?: import('vite').Plugin[] }} [options] packages left out of the build, and what changes it
 * @returns {Promise<any>} what the entry exports
 */
export async function loadFromTests(name, entry, { external = [], plugins = [] } = {}) {
	const { build } = await import('vite');
	const outDir = `${cacheFolder}${name}`;
	await build({
		configFile: false,
		root: projectRoot,
		logLevel: 'warn',
		plugins,
		build: {
			ssr: true,
			outDir,
			emptyOutDir: true,
			target: 'node20',
			rolldownOptions: { input: { [name]: projectRoot + entry } },
		},
		ssr: { noExternal: true, external: [...external], target: 'node' },
	});
	return import(pathToFileURL(`${outDir}/${name}.js`).href);
}
