import { existsSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { ensureBuilt } from './ensure-built.mjs';
import { ensureInstalled } from './ensure-installed.mjs';
import { say } from './project.mjs';

/*
 * node src/tooling/run-command.mjs NAME …arguments
 *
 * Runs the command line's NAME in this process, so that exit codes and signals
 * are its own; installs and builds first where that is needed.
 */
const [name, ...args] = process.argv.slice(2);
let program;
try {
	await ensureInstalled();
	program = `${await ensureBuilt('command-line')}${name}.js`;
	if (!existsSync(program)) throw new Error(`There is no command “${name}”.`);
} catch (error) {
	say(error instanceof Error ? error.message : String(error));
	process.exit(1);
}
process.argv = [process.execPath, program, ...args];
await import(pathToFileURL(program).href);
