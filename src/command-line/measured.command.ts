import { nodeHost } from '../host/node-host.ts';
import { measured } from './measured.ts';
import { processTerminal } from './terminal.ts';

// the build lays the worker beside the command
const workerUrl = new URL('./node-worker.js', import.meta.url);
process.exitCode = await measured(process.argv.slice(2), processTerminal(), nodeHost(workerUrl));
