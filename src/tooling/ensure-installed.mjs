import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { projectRoot, say } from './project.mjs';
import { runProgram } from './run-program.mjs';

/**
 * Installs the packages of package-lock.json where they are missing or stale;
 * otherwise does nothing. Needs nothing but Node and npm.
 *
 * @param {string} [root] folder of package.json
 */
export async function ensureInstalled(root = projectRoot) {
	const reason = reasonToInstall(root);
	if (reason !== undefined) {
		say(`Installing packages (${reason}) …`);
		const options = { cwd: root, stdio: /** @type {['ignore', 2, 2]} */ (['ignore', 2, 2]) };
		const flags = ['--include=dev', '--no-audit', '--no-fund'];
		let code = await runProgram('npm', ['ci', ...flags], options);
		if (code !== 0 && code < 128) {
			say('The lock file does not fit package.json; installing by package.json instead.');
			code = await runProgram('npm', ['install', ...flags], options);
		}
		if (code !== 0) throw new Error(`npm could not install the packages (exit code ${code}; its words are above)`);
	}
	writeFileSync(stampFile(root), hostStamp());
}

/**
 * Why the packages have to be installed; undefined where they are in place.
 *
 * @param {string} root
 * @returns {string | undefined}
 */
export function reasonToInstall(root) {
	const wanted = readJson(`${root}package-lock.json`);
	// npm writes this file last, so an interrupted installation has none
	const present = readJson(`${root}node_modules/.package-lock.json`);
	if (wanted === undefined) return 'there is no lock file';
	if (present === undefined) return 'none are installed';
	const declared = readJson(`${root}package.json`);
	for (const kind of ['dependencies', 'devDependencies']) {
		if (JSON.stringify(declared[kind]) !== JSON.stringify(wanted.packages[''][kind])) return 'package.json has changed';
	}
	for (const [path, entry] of Object.entries(wanted.packages)) {
		const installed = present.packages[path];
		// other platforms' binaries are optional and absent
		if (path === '' || (entry.optional && installed === undefined)) continue;
		if (installed?.version !== entry.version)
			return `${path.replace(/^.*node_modules\//, '')} is missing or not current`;
	}
	const stamp = stampFile(root);
	if (existsSync(stamp) && readFileSync(stamp, 'utf8') !== hostStamp()) return 'Node or the platform has changed';
	return undefined;
}

/** Compiled packages are good for one platform and one major version of Node. */
function hostStamp() {
	return `Node ${process.versions.node.split('.')[0]} ${process.platform} ${process.arch}\n`;
}

/** @param {string} root */
function stampFile(root) {
	return `${root}node_modules/.installed-for`;
}

/**
 * @param {string} file
 * @returns {any} undefined where there is no such file
 */
function readJson(file) {
	return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : undefined;
}
