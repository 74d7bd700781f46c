import { type NodeHost, nodeHost } from '../host/node-host.ts';
import { processTerminal, type Terminal } from './terminal.ts';

type Command = (argv: readonly string[], terminal: Terminal, host: NodeHost) => Promise<number>;

/**
 * Runs a command in this process, on its arguments. Workers take as long to load
 * and compile as the command itself takes to load and to read its input, so they
 * are started first.
 *
 * @param load imports the command
 */
export async function runOnNode(load: () => Promise<Command>): Promise<void> {
	const argv = process.argv.slice(2);
	// the build lays the worker beside the command
	const host = nodeHost(new URL('./node-worker.js', import.meta.url));
	if (!argv.includes('--help')) host.startAhead(workersAsked(argv) ?? host.cores);
	try {
		const command = await load();
		process.exitCode = await command(argv, processTerminal(), host);
	} finally {
		host.endUnused();
	}
}

/** What --workers says, as far as it is a small number; the command itself reads and judges all options. */
function workersAsked(argv: readonly string[]): number | null {
	const said = argv.flatMap((word, at) =>
		word === '--workers' ? [argv[at + 1]] : word.startsWith('--workers=') ? [word.slice(10)] : [],
	);
	return /^\d{1,2}$/.test(said[0] ?? '') ? Number(said[0]) : null;
}
