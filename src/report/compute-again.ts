import type { Calculation } from '../../shared/report/report.ts';
import { type Comparison, compareFigures } from '../../shared/results/compare-figures.ts';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { Pool } from '../host/pool.ts';
import { runCalculation } from './run-calculation.ts';

interface Watch {
	readonly signal: AbortSignal;
	readonly onProgress: (progress: {
		readonly asked: number;
		readonly finished: number;
		readonly failed: number;
	}) => void;
}

/** Computes a report's calculation again from the scenario that it carries, and holds every figure against what it says. */
export async function computeAgain(
	scenarioText: string,
	{ result, ...asked }: Calculation,
	pool: Pool,
	watch: Watch,
): Promise<Comparison> {
	const reading = readScenario(scenarioText);
	if ('problems' in reading) throw new Error('the scenario that this file carries cannot be read');
	const again = await runCalculation(asked as Parameters<typeof runCalculation>[0], reading.scenario, pool, watch);
	return compareFigures(result, again.result);
}
