import type { Worker } from 'node:worker_threads';
import { readOffer, usualGrades } from '../../shared/grades/read-offer.ts';
import { readAxis } from '../../shared/range/read-axis.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { createPool, type Pool } from '../../src/host/pool.ts';
import { runGradesInPool } from '../../src/host/run-grades.ts';
import { runOriginsInPool } from '../../src/host/run-origins.ts';
import { runRangeInPool } from '../../src/host/run-range.ts';
import type { WorkerHost } from '../../src/host/worker-handle.ts';
import { planOf } from './plan-of.ts';
import { poolRate } from './pool-rate.ts';

/** How busy a question keeps two workers. */
export interface Utilisation {
	readonly question: string;
	/** Share of the clock's time, 0 to 1, that their event loops were at work; what they wait for one another and for the main thread is missing from it. */
	readonly share: number;
	readonly seconds: number;
}

/** What `grades` is to reach. */
export const leastUtilisation = 0.9;

/** As the commands ask by default, of fewer drives, with two looks at which runs may end: what waits for an end of something waits a larger share of the time. */
const questions = (scenario: Scenario): Readonly<Record<string, (pool: Pool) => Promise<unknown>>> => {
	const common = { scenario, seed: 'bench' };
	const offer = readOffer(usualGrades, null);
	const axis = readAxis('operation.speed=600 rpm..3000 rpm/7');
	if (!('grades' in offer && 'axis' in axis)) throw new Error('what the bench asks is not understood');
	return {
		'grades, 250 drives each': (pool) =>
			runGradesInPool({ ...common, group: 'all', grades: offer.grades, units: 250 }, pool),
		'origins, 50 rows': (pool) => runOriginsInPool({ ...common, point: 0, rows: 50, units: 100 }, pool),
		'range, 250 drives each': (pool) =>
			runRangeInPool(
				{ ...common, point: scenario.referencePoint, load: 'square', axes: [axis.axis], units: 250, resolution: 0.01 },
				pool,
			),
	};
};

export async function utilisations(
	host: WorkerHost,
	scenario: Scenario,
	say: (words: string) => void,
): Promise<readonly Utilisation[]> {
	const workers: Worker[] = [];
	const meet = (worker: Worker): void => void workers.push(worker);
	process.on('worker', meet);
	const pool = createPool(host, 2);
	try {
		await poolRate(pool, planOf(scenario), 20);
		const found: Utilisation[] = [];
		for (const [question, ask] of Object.entries(questions(scenario))) {
			say(`asking for ${question} …`);
			const before = workers.map(({ performance }) => performance.eventLoopUtilization().active);
			const began = performance.now();
			await ask(pool);
			const wall = performance.now() - began;
			const active = workers.reduce(
				(sum, worker, i) => sum + worker.performance.eventLoopUtilization().active - (before[i] as number),
				0,
			);
			found.push({ question, share: active / (pool.workers * wall), seconds: wall / 1000 });
		}
		return found;
	} finally {
		process.off('worker', meet);
		pool.close();
	}
}
