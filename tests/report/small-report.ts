import { askFurther, type FurtherName } from '../../shared/report/ask.ts';
import type { Report } from '../../shared/report/report.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { nodeHost } from '../../src/host/node-host.ts';
import { onOwnWorkers } from '../../src/host/on-own-workers.ts';
import { runStudyInPool } from '../../src/host/run-study.ts';
import { gatherReport } from '../../src/report/gather-report.ts';
import { buildWorker } from '../host/build-worker.ts';

interface Wanted {
	readonly scenario: Scenario;
	readonly scenarioText: string;
	readonly seed: string;
	readonly units: number;
	readonly further: readonly FurtherName[];
	readonly signal?: AbortSignal;
}

/** A report whose figures were really simulated, on workers of its own. */
export const gatherOnWorkers = async (wanted: Wanted): Promise<Report> =>
	gather(wanted, nodeHost(await buildWorker('workers/node-worker.ts')));

const gather = onOwnWorkers(
	async ({ scenario, scenarioText, further, signal, ...drives }: Wanted, pool): Promise<Report> => {
		const until = { rule: 'number' } as const;
		const stop = signal ?? new AbortController().signal;
		const result = await runStudyInPool({ scenario, ...drives, until, signal: stop }, pool);
		const request = {
			scenario,
			study: { asked: { ...drives, until }, result },
			further: askFurther(further, scenario, drives),
			modelChecks: null,
			signal: stop,
			onProgress: () => {},
		};
		return { ...(await gatherReport(request, pool)), scenarioText };
	},
);
