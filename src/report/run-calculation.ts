import type { Asked, Calculation } from '../../shared/report/report.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import type { Pool } from '../host/pool.ts';
import { budgetsDrives, runBudgetsInPool } from '../host/run-budgets.ts';
import { runEnvelopeInPool } from '../host/run-envelope.ts';
import { runGradesInPool } from '../host/run-grades.ts';
import { originsDrives, runOriginsInPool } from '../host/run-origins.ts';
import { runStudyInPool } from '../host/run-study.ts';
import type { WorkProgress } from '../host/run-variants.ts';
import { mostSearched, runWeakestInPool } from '../host/run-weakest.ts';

export interface Watch {
	readonly signal: AbortSignal;
	/** Drives so far and those known to be needed; at most ten times a second. */
	readonly onProgress: (progress: WorkProgress) => void;
}

/** Computes one of a report's calculations: when the report is made, and when it is computed again. */
export async function runCalculation(of: Asked, scenario: Scenario, pool: Pool, watch: Watch): Promise<Calculation> {
	const { signal, onProgress } = watch;
	const outOf = (asked: number) => ({
		signal,
		onProgress: (progress: Omit<WorkProgress, 'asked'>): void => onProgress({ asked, ...progress }),
	});
	switch (of.name) {
		case 'study':
			return { ...of, result: await runStudyInPool({ scenario, ...of.asked, ...outOf(of.asked.units) }, pool) };
		case 'envelope':
			return { ...of, result: await runEnvelopeInPool({ scenario, ...of.asked, signal, onProgress }, pool) };
		case 'origins': {
			const request = { scenario, ...of.asked };
			return { ...of, result: await runOriginsInPool({ ...request, ...outOf(originsDrives(request)) }, pool) };
		}
		case 'budgets': {
			const request = { scenario, ...of.asked };
			return { ...of, result: await runBudgetsInPool({ ...request, ...outOf(budgetsDrives(request)) }, pool) };
		}
		case 'grades':
			return { ...of, result: await runGradesInPool({ scenario, ...of.asked, signal, onProgress }, pool) };
		case 'weakest': {
			const drives = mostSearched(scenario) + of.asked.units;
			return { ...of, result: await runWeakestInPool({ scenario, ...of.asked, ...outOf(drives) }, pool) };
		}
	}
}
