import type { Doubts } from '../../shared/study/doubts.ts';
import { count } from '../../shared/words/figures.ts';

/**
 * A result whose provenance, where it has one, says which workers were lost on the way.
 *
 * @param losses why, of each worker
 */
export function withLosses<Result>(result: Result, losses: readonly string[]): Result {
	const { provenance } = result as { readonly provenance?: Doubts };
	const [first] = losses;
	if (first === undefined || provenance === undefined) return result;
	const words =
		losses.length === 1
			? `A worker was lost (${first}); what it had begun was run again on a fresh one.`
			: `${count(losses.length)} workers were lost (the first: ${first}); what they had begun was run again on fresh ones.`;
	const lostWorkers = provenance.lostWorkers === undefined ? words : `${provenance.lostWorkers} ${words}`;
	return { ...result, provenance: { ...provenance, lostWorkers } };
}
