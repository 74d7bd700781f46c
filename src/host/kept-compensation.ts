import type { Scenario } from '../../shared/scenario/scenario.ts';
import { type FoundCompensation, findCompensation } from './find-compensation.ts';
import type { Pool } from './pool.ts';
import { silenceLimitOf } from './silence-limit.ts';

/** So many nominal drives are remembered. */
const mostKept = 16;

/**
 * Finds delay compensations and remembers them: the nominal drive depends on the
 * nominal values alone, so that an edited tolerance needs no other one.
 */
export function keptCompensation(pool: Pool) {
	const kept = new Map<string, FoundCompensation>();
	return async (
		scenario: Scenario,
		{ signal, stop }: { readonly signal: AbortSignal; readonly stop: AbortSignal },
	): Promise<FoundCompensation> => {
		const key = JSON.stringify([scenario.values, scenario.points[scenario.referencePoint]?.values]);
		const known = kept.get(key);
		if (known) return known;
		const found = await findCompensation(scenario, pool, silenceLimitOf(scenario), signal, stop);
		if (!signal.aborted && !stop.aborted && found.failure === undefined) {
			kept.set(key, found);
			for (const oldest of kept.keys()) {
				if (kept.size <= mostKept) break;
				kept.delete(oldest);
			}
		}
		return found;
	};
}
