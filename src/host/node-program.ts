import { createHash } from 'node:crypto';
import { programFiles } from './node-program-files.ts';

/** SHA-256 (hex) over a built program's file and all files of its own that it uses, each once, in the order they are met. */
export function programDigest(entry: URL): string {
	const hash = createHash('sha256');
	for (const { bytes } of programFiles([entry])) hash.update(createHash('sha256').update(bytes).digest());
	return hash.digest('hex');
}
