import type { Calculation } from '../../shared/report/report.ts';
import { type FigureComparison, figureDifferences } from '../../shared/results/figure-differences.ts';
import { jsonText } from '../../shared/results/json-text.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import type { Pool } from '../host/pool.ts';
import { runCalculation, type Watch } from './run-calculation.ts';

/** A calculation held against the same one computed again. */
export interface ComputedAgain extends FigureComparison {
	readonly calculation: Calculation;
	/** Whether every drive behind the figures is the same to the last bit, as far as the calculation keeps a digest over them. */
	readonly sameDrives: boolean;
}

/** Computes a report's calculation again and holds every figure against what it says. */
export async function computeAgain(
	scenario: Scenario,
	{ result, ...asked }: Calculation,
	pool: Pool,
	watch: Watch,
): Promise<ComputedAgain> {
	const again = await runCalculation(asked as Parameters<typeof runCalculation>[0], scenario, pool, watch);
	// as the report has it: what does not exist is null
	const written: object = JSON.parse(jsonText(again.result));
	// which workers were lost is of the first run alone
	const provenance = { ...again.result.provenance, lostWorkers: result.provenance.lostWorkers };
	return {
		calculation: { ...again, result: { ...again.result, provenance } } as Calculation,
		...figureDifferences(result, written),
		sameDrives: digestsOf(result).join() === digestsOf(again.result).join(),
	};
}

/** Digests over drives, wherever a result holds them. */
function digestsOf(value: unknown): readonly string[] {
	if (typeof value !== 'object' || value === null) return [];
	return Object.entries(value).flatMap(([name, member]) =>
		name === 'resultDigest' && typeof member === 'string' ? [member] : digestsOf(member),
	);
}
