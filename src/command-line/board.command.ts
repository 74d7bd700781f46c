import { board } from './board.ts';
import { processTerminal } from './terminal.ts';

process.exitCode = await board(process.argv.slice(2), processTerminal());
