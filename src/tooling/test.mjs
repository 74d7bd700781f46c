import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { countTests, failedTests } from './count-tests.mjs';
import { ensureInstalled } from './ensure-installed.mjs';
import { cacheFolder, projectRoot } from './project.mjs';
import { runProgram } from './run-program.mjs';

/*
 * npm test: every check in turn, each a script of package.json, going on after
 * a failure so that all of them show. A check counts as one test, a test
 * project as the tests it ran.
 */

/** @type {readonly (readonly [title: string, script: string, project?: string])[]} */
const steps = [
	['types', 'check:types'],
	['lint and format', 'check:style'],
	['nothing that differs between engines', 'check:determinism'],
	['import rules', 'check:imports'],
	['unused code', 'check:unused'],
	['unit tests', 'test:unit', 'unit'],
	['build', 'build'],
	['worker tests in a browser', 'test:browser', 'browser'],
	['end-to-end tests in a browser', 'test:end-to-end', 'end-to-end'],
];

/** @type {{ scripts: Record<string, string> }} */
const { scripts } = JSON.parse(readFileSync(`${projectRoot}package.json`, 'utf8'));

/**
 * Runs a script of package.json as npm would, without npm's start-up time.
 *
 * @param {string} script
 * @param {string} [more] further arguments
 */
function runScript(script, more = '') {
	const command = scripts[script];
	if (command === undefined) throw new Error(`package.json has no script ${script}`);
	const PATH = `${projectRoot}node_modules/.bin:${process.env.PATH}`;
	return runProgram(`${command} ${more}`, [], {
		cwd: projectRoot,
		shell: true,
		stdio: ['ignore', 'inherit', 'inherit'],
		env: { ...process.env, PATH },
	});
}

/**
 * @param {string} script
 * @param {string} [project] of vitest
 * @returns {Promise<{ passed: number, failed: number, names: readonly string[] }>} names: a line for each failed test
 */
async function runStep(script, project) {
	if (project === undefined) {
		const ok = (await runScript(script)) === 0;
		return { passed: ok ? 1 : 0, failed: ok ? 0 : 1, names: [] };
	}
	const report = `${cacheFolder}tests-${project}.json`;
	rmSync(report, { force: true });
	const code = await runScript(script, `--reporter=default --reporter=json --outputFile.json='${report}'`);
	const found = existsSync(report) ? JSON.parse(readFileSync(report, 'utf8')) : undefined;
	return { ...countTests(found, code), names: failedTests(found, projectRoot) };
}

let stopped = false;
process.on('SIGINT', () => {
	stopped = true;
});

let passed = 0;
let failed = 0;
/** @type {string[]} */
const summary = [];
/** Said last, where the end of a long log is all that is kept. @type {string[]} */
const failures = [];

await ensureInstalled();
mkdirSync(cacheFolder, { recursive: true });
for (const [title, script, project] of steps) {
	console.log(`\n── ${title} (npm run ${script})`);
	const start = performance.now();
	const counts = await runStep(script, project);
	const seconds = ((performance.now() - start) / 1000).toFixed(1);
	passed += counts.passed;
	failed += counts.failed;
	failures.push(...counts.names);
	summary.push(`${counts.failed === 0 ? 'passed' : 'FAILED'} ${seconds.padStart(7)} s  ${title}`);
	if (stopped) process.exit(130);
}
console.log(['', ...summary, ...failures.map((line) => `FAILED ${line}`), ''].join('\n'));
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 && passed > 0 ? 0 : 1);
