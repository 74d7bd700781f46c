import { ensureBuilt } from './ensure-built.mjs';
import { ensureInstalled } from './ensure-installed.mjs';
import { projectRoot } from './project.mjs';
import { runProgram } from './run-program.mjs';
import { serveFolder } from './serve-folder.mjs';

/* npm start: the comparison of the first demo scenario in the terminal, then the page. */

const scenario = 'scenarios/fan-24v.json';
const firstPort = 8360;

/** While the study runs it is the one to answer signals: it reports what it has and ends with 130. */
let studying = false;
/** Stopping the server is no failure; stopping an installation or a build is. */
let serving = false;
for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) {
	process.on(signal, () => {
		if (!studying) process.exit(serving ? 0 : 130);
	});
}

try {
	await ensureInstalled();
	const commands = await ensureBuilt('command-line');
	const page = await ensureBuilt('page');

	studying = true;
	const code = await runProgram(process.execPath, [`${commands}study.js`, scenario, '--units', '1000'], {
		cwd: projectRoot,
	});
	studying = false;
	if (code !== 0) process.exit(code);

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
