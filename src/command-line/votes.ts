import { longestWindow } from '../../shared/drive/sensing/acceptance-chain.ts';
import { ownFilter, runVotes } from '../host/run-votes.ts';
import { wholeNumber } from './common-options.ts';
import { distinct, filtersOption, noiseOption } from './filter-options.ts';
import { stagedProgress } from './progress-line.ts';
import { scenarioCommand } from './scenario-command.ts';
import { votesTable } from './votes-table.ts';
import { workOptions } from './work-options.ts';

const command = {
	name: 'votes',
	purpose: 'judges majority filters (K votes of the last W readings) and noise on one set of simulated readings.',
	file: 'SCENARIO.json',
	example: 'npm run --silent votes -- scenarios/fan-24v.json --filters "1/1, 2/3, 3/5"',
	options: {
		filters: filtersOption,
		noise: noiseOption,
		units: wholeNumber('N', 'Drives of each run, 2 to 10 000. Default 300.', 300, [2, 10_000]),
		...workOptions,
	},
	remarks: [
		'The drives are simulated once, with the filter that the scenario states, and their noise-free readings kept; from these follow the exact chances of early, late and missed crossings, and the share of commutations within the angle limit, with every other filter and noise. The waveform stays that of the filter stated: another one would commutate at other times. So the filters that matter are simulated in full, on fresh drives.',
		'Exit codes: 0 done; 2 bad input, everything wrong with it is listed; 130 interrupted (Ctrl-C), what finished is reported and marked partial.',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** The `votes` command. */
export const votes = scenarioCommand({
	record: command,
	ask(scenario, { filters, noise, seed, units }) {
		const own = ownFilter(scenario);
		if (own.window > longestWindow) {
			return {
				problems: [
					{
						path: 'detection.majorityWindow',
						value: String(own.window),
						message: `must be at most ${longestWindow} for this command: longer ones are not followed exactly`,
					},
				],
			};
		}
		const sigmas = [own.sigma, ...(noise ?? [own.sigma / 2, own.sigma * 2])];
		return {
			request: {
				scenario,
				seed,
				units,
				filters: distinct([...filters, { votes: own.votes, window: own.window }]),
				sigmas: [...new Set(sigmas)].sort((one, other) => one - other),
			},
		};
	},
	progress: stagedProgress,
	run: runVotes,
	table: votesTable,
});
