import { graded } from '../grades/apply-grade.ts';
import { resistorsOf } from '../grades/resistor-groups.ts';
import { formatRelative } from '../parameters/format-quantity.ts';
import type { Tolerance } from '../parameters/parameter.ts';
import { nextTighterGrade } from '../parts/tolerance-grades.ts';
import type { Scenario } from '../scenario/scenario.ts';

/**
 * The scenario with every sensing resistor of the next tighter tolerance grade, nominal values unchanged, and the step
 * in words; null where no resistor's tolerance has one.
 */
export function tighterResistors(scenario: Scenario): { readonly scenario: Scenario; readonly words: string } | null {
	const tolerances: Record<string, Tolerance> = { ...scenario.tolerances };
	const steps = new Set<string>();
	for (const { id } of resistorsOf('all')) {
		const stated = scenario.tolerances[id];
		if (!stated || stated.distribution === 'measured') continue;
		const mismatch = nextTighterGrade(stated.mismatch);
		if (mismatch === undefined) continue;
		tolerances[id] = graded(stated, { lot: stated.lot, mismatch });
		steps.add(`${formatRelative(stated.mismatch)} → ${formatRelative(mismatch)}`);
	}
	return steps.size === 0 ? null : { scenario: { ...scenario, tolerances }, words: [...steps].join(', ') };
}
