import type { Scenario } from '../../shared/scenario/scenario.ts';
import {
	type Compensation,
	compensationFrom,
	type DelaySums,
	delayPhases,
	statedCompensation,
} from '../../shared/study/compensation.ts';
import { failUnits, type StudyColumns } from '../../shared/study/merge.ts';
import type { Pool } from './pool.ts';

/** `failure`: why the nominal drive could not be simulated; nothing is compensated then. */
export type FoundCompensation = Compensation & { readonly failure?: string | undefined };

/** A scenario's delay compensation: stated, or found on the nominal drive, its carrier phases shared out. */
export async function findCompensation(
	scenario: Scenario,
	pool: Pool,
	silenceLimit: number,
	signal: AbortSignal | undefined,
	stop?: AbortSignal | undefined,
): Promise<FoundCompensation> {
	const stated = statedCompensation(scenario);
	if (stated) return stated;
	const parts: DelaySums[] = [];
	const failures: string[] = [];
	const isComplete = await pool.run({
		name: 'nominalDelays',
		input: scenario,
		to: delayPhases,
		signal,
		stop,
		silenceLimit,
		onShard: (part) => void parts.push(part),
		onFailure: (_from, _to, message) => void failures.push(message),
	});
	if (isComplete && failures.length === 0) return compensationFrom(parts);
	return { compensation: { halfBus: 0, virtualNeutral: 0 }, warnings: [], failure: failures[0] };
}

/** Counts every unit of a study as failed where the nominal drive did: what ran of it was not compensated. */
export function failUncompensated(study: StudyColumns, units: number, failure: string | undefined): void {
	if (failure === undefined) return;
	study.failures.length = 0;
	failUnits(study, 0, units, `the nominal drive: ${failure}`);
}
