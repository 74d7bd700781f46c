import { nodeHost } from '../host/node-host.ts';
import { processTerminal } from './terminal.ts';
import { votes } from './votes.ts';

// the build lays the worker beside the command
const workerUrl = new URL('./node-worker.js', import.meta.url);
process.exitCode = await votes(process.argv.slice(2), processTerminal(), nodeHost(workerUrl));
