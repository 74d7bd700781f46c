import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';

/** As the build writes the imports of its own files. */
const ownImport = /\b(?:from|import)\s*\(?\s*["'](\.{1,2}\/[^"']+)["']/g;

/** SHA-256 (hex) over a built program's file and all files of its own that it imports, each once, in the order they are met. */
export function programDigest(entry: URL): string {
	const hash = createHash('sha256');
	const met = new Set([entry.href]);
	// a set goes on to what is added to it on the way
	for (const href of met) {
		const text = readFileSync(new URL(href), 'utf8');
		hash.update(createHash('sha256').update(text).digest());
		for (const [, path = ''] of text.matchAll(ownImport)) met.add(new URL(path, href).href);
	}
	return hash.digest('hex');
}
