import type { Scenario } from '../../shared/scenario/scenario.ts';
import {
	type Compensation,
	compensationFrom,
	type DelaySums,
	delayPhases,
	statedCompensation,
} from '../../shared/study/compensation.ts';
import { failUnits, type StudyColumns } from '../../shared/study/merge.ts';
import { stretches } from '../../shared/study/stretches.ts';
import type { Pool } from './pool.ts';

/** `failure`: that the nominal drive could not be simulated, and why; nothing is compensated then. */
export type FoundCompensation = Compensation & { readonly failure?: string | undefined };

/** A scenario's delay compensation: stated, or found on the nominal drive, its carrier phases shared out. */
export async function findCompensation(
	scenario: Scenario,
	pool: Pool,
	silenceLimit: number,
	signal: AbortSignal | undefined,
	stop?: AbortSignal | undefined,
): Promise<FoundCompensation> {
	const [found] = await findCompensations([scenario], pool, silenceLimit, signal, stop);
	return found as FoundCompensation;
}

/** The same of each of several scenarios, as one job. */
export async function findCompensations(
	scenarios: readonly Scenario[],
	pool: Pool,
	silenceLimit: number,
	signal: AbortSignal | undefined,
	stop?: AbortSignal | undefined,
): Promise<readonly FoundCompensation[]> {
	const none: Compensation = { compensation: { halfBus: 0, virtualNeutral: 0 }, warnings: [] };
	const stated = scenarios.map(statedCompensation);
	const open = scenarios.flatMap((_, place) => (stated[place] === null ? [place] : []));
	const sums: DelaySums[][] = open.map(() => []);
	const failures: (string | undefined)[] = open.map(() => undefined);
	const isComplete =
		open.length === 0 ||
		(await pool.run({
			name: 'nominalDelaysOfScenarios',
			input: open.map((place) => scenarios[place] as Scenario),
			to: open.length * delayPhases,
			signal,
			stop,
			silenceLimit,
			onShard({ parts }) {
				for (const { scenario, sums: part } of parts) sums[scenario]?.push(part);
			},
			onFailure(from, to, message) {
				for (const { place } of stretches(delayPhases, from, to)) failures[place] ??= message;
			},
		}));
	const found = open.map((_, i): FoundCompensation => {
		if (failures[i] !== undefined) return { ...none, failure: `the nominal drive: ${failures[i]}` };
		return isComplete ? compensationFrom(sums[i] ?? []) : none;
	});
	return stated.map((one, place) => one ?? (found[open.indexOf(place)] as FoundCompensation));
}

/** Counts every unit of a study as failed where the nominal drive did: what ran of it was not compensated. */
export function failUncompensated(study: StudyColumns, units: number, failure: string | undefined): void {
	if (failure === undefined) return;
	study.failures.length = 0;
	failUnits(study, 0, units, failure);
}
