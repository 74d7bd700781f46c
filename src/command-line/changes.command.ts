import { changes } from './changes.ts';
import { processTerminal } from './terminal.ts';

process.exitCode = await changes(process.argv.slice(2), processTerminal());
