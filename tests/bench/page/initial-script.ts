import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';

/** Kilobytes, gzipped, of the scripts that the built page loads before it draws anything: those that its HTML names. */
export function initialScript(folder: string): number {
	const html = readFileSync(`${folder}index.html`, 'utf8');
	const scripts = [...html.matchAll(/(?:src|href)="\.\/([^"]+\.js)"/g)].map(([, path]) => `${folder}${path}`);
	if (scripts.length === 0) throw new Error('the page names no script');
	return scripts.reduce((sum, path) => sum + gzipSync(readFileSync(path)).length / 1000, 0);
}
