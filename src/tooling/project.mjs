import { fileURLToPath } from 'node:url';

/** Folder of package.json, with a trailing slash. */
export const projectRoot = fileURLToPath(new URL('../../', import.meta.url));

/** Where tools keep what they can make again. Goes with node_modules. */
export const cacheFolder = `${projectRoot}node_modules/.cache/anglespread/`;

/**
 * Tooling speaks on the error stream, so that a command's own output stays clean.
 * @param {string} message
 */
export function say(message) {
	process.stderr.write(`${message}\n`);
}
