import { existsSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { programFiles } from '../../host/node-program-files.ts';

// the build lays every command, their common parts and the worker in one folder
const study = new URL('./study.js', import.meta.url);

/** The files of `study` as they are built; null where this is not the built program. */
export function builtProgram(): { readonly path: string; readonly bytes: Buffer }[] | null {
	if (!existsSync(study)) return null;
	return programFiles([study]).map(({ url, bytes }) => ({ path: basename(fileURLToPath(url)), bytes }));
}
