import { count } from '../../shared/words/figures.ts';

/**
 * A result that says among its warnings, where it has any, which workers were lost on the way.
 *
 * @param losses why, of each worker
 */
export function withLosses<Result>(result: Result, losses: readonly string[]): Result {
	const { provenance } = result as { readonly provenance?: { readonly warnings?: readonly string[] } };
	const [first] = losses;
	if (first === undefined || provenance?.warnings === undefined) return result;
	const words =
		losses.length === 1
			? `A worker was lost (${first}); what it had begun was run again on a fresh one.`
			: `${count(losses.length)} workers were lost (the first: ${first}); what they had begun was run again on fresh ones.`;
	return { ...result, provenance: { ...provenance, warnings: [...provenance.warnings, words] } };
}
