import { digestOfAll, scenarioDigest } from '../../shared/scenario/digest.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { warnings as scenarioWarnings } from '../../shared/scenario/warnings.ts';
import { confidenceLevel } from '../../shared/study/confidence-level.ts';
import type { Provenance } from '../../shared/study/result.ts';
import { version } from '../../shared/study/version.ts';
import type { FoundCompensation } from './find-compensation.ts';

type Ground = Pick<Provenance, 'seed' | 'units' | 'partial' | 'failures' | 'methods'> & {
	readonly scenario: Scenario;
	readonly found: FoundCompensation;
	/** Of all columns that the figures come from, in their order; or one of everything. */
	readonly digests: readonly string[] | string;
};

/** What the figures of a question about a scenario rest on. */
export async function provenanceOf({ scenario, found, digests, ...ground }: Ground): Promise<Provenance> {
	return {
		...ground,
		level: confidenceLevel,
		version,
		scenario: scenario.name,
		scenarioDigest: await scenarioDigest(scenario),
		resultDigest: typeof digests === 'string' ? digests : await digestOfAll(digests),
		compensation: found.compensation,
		warnings: [...scenarioWarnings(scenario), ...found.warnings],
	};
}
