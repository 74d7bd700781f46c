import type { Doubts } from '../../shared/study/doubts.ts';
import { count } from '../../shared/words/figures.ts';
import type { Pool } from './pool.ts';

/** A result whose provenance, where it has one, says which workers were lost since those that an earlier result told of. */
export function withLosses<Result>(result: Result, pool: Pick<Pool, 'takeLosses'>): Result {
	const { provenance } = result as { readonly provenance?: Doubts };
	if (provenance === undefined) return result;
	const losses = pool.takeLosses();
	const [first] = losses;
	if (first === undefined) return result;
	const lostWorkers =
		losses.length === 1
			? `A worker was lost (${first}); what it had begun was run again on a fresh one.`
			: `${count(losses.length)} workers were lost (the first: ${first}); what they had begun was run again on fresh ones.`;
	return { ...result, provenance: { ...provenance, lostWorkers } };
}
