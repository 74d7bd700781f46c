import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { projectRoot } from './project.mjs';

/**
 * Emits the service worker with the list of all files of the build, and a version that changes with any of them.
 *
 * @returns {import('vite').Plugin}
 */
export function offline() {
	return {
		name: 'offline',
		apply: 'build',
		enforce: 'post',
		generateBundle(_options, bundle) {
			const source = readFileSync(`${projectRoot}src/page/service-worker.js`, 'utf8');
			const files = Object.keys(bundle)
				.filter((name) => !name.endsWith('.map'))
				.sort();
			const hash = createHash('sha256').update(source);
			for (const name of files) {
				const made = bundle[name];
				if (made) hash.update(name).update(made.type === 'chunk' ? made.code : made.source);
			}
			const version = hash.digest('hex').slice(0, 16);
			const list = JSON.stringify(files.map((name) => `./${name}`));
			this.emitFile({
				type: 'asset',
				fileName: 'service-worker.js',
				source: `const version = '${version}';\nconst files = ${list};\n${source}`,
			});
		},
	};
}
