import { existsSync, readdirSync } from 'node:fs';

/**
 * Files below some folders whose names end in one of the endings, relative to
 * the root, with `/`.
 *
 * @param {string} root with a trailing slash
 * @param {readonly string[]} folders
 * @param {RegExp} name
 * @returns {string[]}
 */
export function sourceFiles(root, folders, name) {
	return folders
		.filter((folder) => existsSync(root + folder))
		.flatMap((folder) =>
			readdirSync(root + folder, { recursive: true, withFileTypes: true })
				.filter((entry) => entry.isFile() && name.test(entry.name))
				.map((entry) => `${entry.parentPath.replaceAll('\\', '/')}/${entry.name}`.slice(root.length)),
		)
		.sort();
}
