import { count } from '../words/figures.ts';
import type { ReplicatedDraws, StratifiedKind } from './replicates-result.ts';

export const stratifiedWords: Readonly<Record<StratifiedKind, string>> = {
	latin: 'Latin hypercubes',
	sobol: 'scrambled Sobol’ points',
};

/** How a study's parts were drawn. */
export function drawsWords({ kind, replicates, units }: ReplicatedDraws): string {
	const each =
		kind === 'latin'
			? 'each a Latin hypercube with a permutation of its own'
			: 'each the first Sobol’ points (Joe and Kuo 2008) under a scramble of its own (random linear, digital shift)';
	return `parts in ${count(replicates.asked)} independent replicates of ${count(units)} drives, ${each}; moments and noise of every start independent`;
}
