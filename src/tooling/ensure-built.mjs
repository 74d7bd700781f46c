import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { projectRoot, say } from './project.mjs';
import { takeTurns } from './take-turns.mjs';

/** Everything a build is made from; what is not here does not cause one. */
const sources = ['src', 'shared', 'workers', 'scenarios', 'vite.config.ts', 'tsconfig.base.json', 'package-lock.json'];

/**
 * Builds dist/page or dist/command-line where the sources have changed since
 * it was last built. A build replaces the old one only when it is complete.
 *
 * @param {'page' | 'command-line'} part
 * @param {{ force?: boolean }} [options]
 * @returns {Promise<string>} the folder, with a trailing slash
 */
export async function ensureBuilt(part, { force = false } = {}) {
	const folder = `${projectRoot}dist/${part}/`;
	const digest = sourcesDigest(projectRoot);
	const stamp = `${folder}.built-from`;
	const isCurrent = () => existsSync(stamp) && readFileSync(stamp, 'utf8') === digest;
	if (!force && isCurrent()) return folder;

	await takeTurns(`${projectRoot}dist/.building-${part}`, async () => {
		if (!force && isCurrent()) return; // another process has just built it
		say(`Building dist/${part} …`);
		const { build } = await import('vite');
		const fresh = `${projectRoot}dist/.${part}-${process.pid}`;
		try {
			await build({
				configFile: `${projectRoot}vite.config.ts`,
				logLevel: 'warn',
				build: { outDir: fresh, emptyOutDir: true, ssr: part === 'command-line' },
			});
			writeFileSync(`${fresh}/.built-from`, digest);
			rmSync(folder, { recursive: true, force: true });
			renameSync(fresh, folder.slice(0, -1));
		} finally {
			rmSync(fresh, { recursive: true, force: true });
		}
	});
	return folder;
}

/**
 * One SHA-256 over names and contents of all sources.
 *
 * @param {string} root
 */
export function sourcesDigest(root) {
	const hash = createHash('sha256').update(process.version);
	/** @param {string} path */
	const add = (path) => {
		const entries = readdirSync(root + path, { withFileTypes: true });
		for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
			const inner = `${path}/${entry.name}`;
			if (entry.isDirectory()) add(inner);
			else hash.update(`\0${inner}\0`).update(readFileSync(root + inner));
		}
	};
	for (const path of sources) {
		if (!existsSync(root + path)) continue;
		if (path.includes('.')) hash.update(`\0${path}\0`).update(readFileSync(root + path));
		else add(path);
	}
	return hash.digest('hex');
}
