import { execFileSync } from 'node:child_process';
import { accessSync, constants, existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, dirname, join } from 'node:path';
import { cacheFolder, say } from './project.mjs';

/**
 * How to launch a browser for tests, as Playwright's launch options take it.
 * @typedef {{ executablePath: string, args: string[], env: Record<string, string> }} BrowserLaunch
 */

/** Headless tests need no sandbox, graphics card or network of the browser's own. */
const flags = [
	'--no-sandbox',
	'--disable-gpu',
	'--disable-quic',
	'--no-first-run',
	'--disable-background-networking',
	'--disable-component-update',
	'--disable-sync',
];

const installedNames = ['google-chrome-stable', 'google-chrome', 'chromium', 'chromium-browser', 'chrome'];

/**
 * The browser for tests: $CHROME_BIN, else a Chrome or Chromium on the path,
 * else the Chromium that comes with the packages. Each is tried before it is
 * handed out.
 *
 * @param {NodeJS.ProcessEnv} [environment]
 * @returns {Promise<BrowserLaunch>}
 * @throws where there is none that starts: tests in a browser are never skipped
 */
export async function findBrowser(environment = process.env) {
	if (environment.CHROME_BIN) return tried('$CHROME_BIN', environment.CHROME_BIN, environment);
	for (const folder of (environment.PATH ?? '').split(delimiter)) {
		for (const name of installedNames) {
			if (isExecutable(join(folder, name))) return tried('on the path', join(folder, name), environment);
		}
	}
	return packagedBrowser(environment);
}

/**
 * @param {string} where
 * @param {string} executablePath
 * @param {NodeJS.ProcessEnv} environment
 * @returns {BrowserLaunch}
 */
function tried(where, executablePath, environment) {
	const problem = whyItDoesNotStart(executablePath, environment);
	if (problem) throw new Error(`No browser for the tests: ${executablePath} (${where}) does not start: ${problem}`);
	return launch(executablePath, environment);
}

/**
 * @param {string} executablePath
 * @param {NodeJS.ProcessEnv} environment
 * @returns {BrowserLaunch}
 */
function launch(executablePath, environment) {
	/** @type {Record<string, string>} */
	const env = {};
	for (const [name, value] of Object.entries(environment)) if (value !== undefined) env[name] = value;
	return { executablePath, args: flags, env };
}

/**
 * Unpacks @sparticuz/chromium once for each of its versions. On a machine
 * without the libraries it needs, those that come with it are used as well.
 *
 * @param {NodeJS.ProcessEnv} environment
 * @returns {Promise<BrowserLaunch>}
 */
async function packagedBrowser(environment) {
	const packageFolder = join(dirname(createRequire(import.meta.url).resolve('@sparticuz/chromium')), '../..');
	const { version } = JSON.parse(readFileSync(join(packageFolder, 'package.json'), 'utf8'));
	const folder = join(cacheFolder, `chromium-${version}`);
	if (!existsSync(folder)) await unpack(join(packageFolder, 'bin'), folder);

	const executablePath = join(folder, 'chromium');
	const withFonts = { ...environment, FONTCONFIG_PATH: join(folder, 'fonts') };
	const problem = whyItDoesNotStart(executablePath, withFonts);
	if (!problem) return launch(executablePath, withFonts);

	const libraries = [join(folder, 'al2023/lib'), environment.LD_LIBRARY_PATH].filter(Boolean).join(':');
	const withLibraries = { ...withFonts, LD_LIBRARY_PATH: libraries };
	const second = whyItDoesNotStart(executablePath, withLibraries);
	if (!second) return launch(executablePath, withLibraries);
	throw new Error(
		`No browser for the tests. Install Chrome or Chromium, or name one in CHROME_BIN.
None was found on the path, and the packaged one does not start:
  ${problem}
  ${second} (with its own libraries)`,
	);
}

/**
 * @param {string} packed
 * @param {string} folder
 */
async function unpack(packed, folder) {
	say('Unpacking the packaged Chromium for the tests …');
	const fresh = `${folder}-${process.pid}`;
	mkdirSync(fresh, { recursive: true });
	// the package unpacks into the temporary folder, whichever that is at the time
	const { TMPDIR } = process.env;
	process.env.TMPDIR = fresh;
	try {
		const { inflate } = await import(new URL('lambdafs.js', import.meta.resolve('@sparticuz/chromium')).href);
		for (const file of ['chromium.br', 'fonts.tar.br', 'al2023.tar.br']) await inflate(join(packed, file));
	} finally {
		if (TMPDIR === undefined) delete process.env.TMPDIR;
		else process.env.TMPDIR = TMPDIR;
	}
	const configuration = `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
	<dir prefix="relative">fonts</dir>
	<dir>/usr/share/fonts</dir>
	<cachedir>${join(folder, 'font-cache')}</cachedir>
</fontconfig>
`;
	writeFileSync(join(fresh, 'fonts/fonts.conf'), configuration);
	if (existsSync(folder)) rmSync(fresh, { recursive: true });
	else renameSync(fresh, folder);
}

/**
 * @param {string} executablePath
 * @param {NodeJS.ProcessEnv} environment
 * @returns {string | undefined} undefined where it starts
 */
function whyItDoesNotStart(executablePath, environment) {
	try {
		execFileSync(executablePath, ['--version'], { env: environment, stdio: 'pipe', timeout: 30_000 });
		return undefined;
	} catch (error) {
		const { stderr, message } = /** @type {Error & { stderr?: Buffer }} */ (error);
		return stderr?.toString().trim() || message;
	}
}

/** @param {string} path */
function isExecutable(path) {
	try {
		accessSync(path, constants.X_OK);
		return true;
	} catch {
		return false;
	}
}
