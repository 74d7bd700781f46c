import { ensureBuilt } from './ensure-built.mjs';
import { ensureInstalled } from './ensure-installed.mjs';
import { projectRoot } from './project.mjs';
import { runProgram } from './run-program.mjs';
import { serveFolder } from './serve-folder.mjs';

/* npm start: the comparison of the first demo scenario in the terminal, then the page. */

const scenario = 'scenarios/fan-24v.json';
/** Drives of this first look: enough for a first answer while one waits for it. */
const drives = '80';
const firstPort = 8360;

/** While the study runs it is the one to answer signals: it reports what it has and ends with 130. */
let studying = false;
/** It may have been done already when it was asked to stop: whoever presses Ctrl-C then wants no page either. */
let stopAsked = false;
/** Stopping the server is no failure; stopping an installation or a build is. */
let serving = false;
for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) {
	process.on(signal, () => {
		if (studying) stopAsked = true;
		else process.exit(serving ? 0 : 130);
	});
}

try {
	await ensureInstalled();
	const commands = await ensureBuilt('command-line');
	const page = await ensureBuilt('page');

	studying = true;
	const code = await runProgram(process.execPath, [`${commands}study.js`, scenario, '--units', drives], {
		cwd: projectRoot,
	});
	studying = false;
	if (stopAsked || code !== 0) process.exit(code || 130);
	console.log(`\nA first look at ${drives} drives; a thousand: npm run study -- ${scenario} --units 1000`);

	const { address } = await serveFolder(page, {
		port: firstPort,
		onTaken: (port) => console.log(`Port ${port} is taken; trying the next one.`),
	});
	serving = true;
	console.log(`\nThe page is at ${address} (Ctrl-C stops it)`);
} catch (error) {
	console.error(error instanceof Error ? error.message : error);
	process.exit(1);
}
