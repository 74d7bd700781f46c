import { jsonOption, text, wholeNumber } from './common-options.ts';

/** Options that every command has that runs randomised drives. */
export const workOptions = {
	seed: text('TEXT', 'Draws the drives: the same seed, the same drives. Default demo.', 'demo', 200),
	workers: wholeNumber(
		'N',
		'Worker threads, 1 to 256. Default: as many as the machine has cores. No figure depends on it.',
		null,
		[1, 256],
	),
	json: jsonOption,
};

/** What every command says at the end of its help. */
export const workRemarks = [
	'Exit codes: 0 done; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported and marked partial.',
	'All figures are simulated estimates; measurement on real hardware decides.',
];
