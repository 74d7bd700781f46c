import { expect, test } from 'vitest';
import { askFurther } from '../../shared/report/ask.ts';
import type { Pool } from '../../src/host/pool.ts';
import { computeAgain } from '../../src/report/compute-again.ts';
import { gatherReport } from '../../src/report/gather-report.ts';
import { inlinePool } from '../grades/inline-pool.ts';
import { smallScenario } from '../study/small-scenario.ts';
import { studyOf } from '../study/study-of.ts';

const never = new AbortController().signal;

/** A pool that tells of these losses when it is first asked. */
function losing(...reasons: string[]): Pool {
	return { ...inlinePool(), takeLosses: () => reasons.splice(0) };
}

test('workers lost over a report’s further calculation are told of with it, and computed again without a loss no figure differs', async () => {
	const scenario = smallScenario();
	const asked = { seed: 'few', units: 8, until: { rule: 'number' } } as const;
	const { result } = await studyOf(8);
	const further = askFurther(['budgets'], scenario, asked).slice(0, 1);
	const { calculations } = await gatherReport(
		{ scenario, study: { asked, result }, further, signal: never, onProgress() {} },
		losing('exit code 3', 'no sign of life'),
	);
	const [study, budgets] = calculations;
	expect(study?.result.provenance.lostWorkers).toBeUndefined();
	expect(budgets?.result.provenance.lostWorkers).toMatch(/^2 workers were lost \(the first: exit code 3\)/);
	if (!budgets) throw new Error('no budgets');

	const again = await computeAgain(scenario, budgets, inlinePool(), { signal: never, onProgress() {} });
	expect(again.figures).toBeGreaterThan(100);
	expect(again.differences).toEqual([]);
	// the page made again from it tells of the same workers
	expect(again.calculation.result.provenance.lostWorkers).toBe(budgets.result.provenance.lostWorkers);
});
