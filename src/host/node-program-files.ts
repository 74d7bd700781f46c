import { readFileSync } from 'node:fs';

/** As the build writes the places of its own files: imports, and the worker's URL. */
const ownFile = /["'](\.\/[\w.-]+\.js)["']/g;

/** A built program's files and all files of its own folder that they use, each once, in the order they are met. */
export function programFiles(entries: readonly URL[]): { readonly url: URL; readonly bytes: Buffer }[] {
	const met = new Set(entries.map(({ href }) => href));
	const files: { url: URL; bytes: Buffer }[] = [];
	// a set goes on to what is added to it on the way
	for (const href of met) {
		const bytes = readFileSync(new URL(href));
		files.push({ url: new URL(href), bytes });
		for (const [, path = ''] of bytes.toString('utf8').matchAll(ownFile)) met.add(new URL(path, href).href);
	}
	return files;
}
