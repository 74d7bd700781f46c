import { nodeHost } from '../host/node-host.ts';
import { processTerminal } from './terminal.ts';
import { weakest } from './weakest.ts';

// the build lays the worker beside the command
const workerUrl = new URL('./node-worker.js', import.meta.url);
process.exitCode = await weakest(process.argv.slice(2), processTerminal(), nodeHost(workerUrl));
