import { canonicalJson } from '../scenario/canonical-json.ts';
import type { Scenario } from '../scenario/scenario.ts';

/**
 * Scenarios to be run, each once however often it is asked for: two grades whose
 * nearest values are the same share the run that has no tolerance.
 */
export function caseList() {
	const scenarios: Scenario[] = [];
	const places = new Map<string, number>();
	return {
		scenarios: scenarios as readonly Scenario[],
		/** Place of this scenario among them. */
		place(scenario: Scenario): number {
			const key = canonicalJson(scenario);
			const known = places.get(key);
			if (known !== undefined) return known;
			places.set(key, scenarios.length);
			return scenarios.push(scenario) - 1;
		},
	};
}
