import { choiceNames } from '../drive/drive.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { batchSize, type DrawFigures, drawFigures, settling } from '../statistics/adaptive-monte-carlo.ts';
import { choiceVerdicts } from './choice-verdict.ts';
import { cellOf } from './columns.ts';
import { looks } from './looks.ts';
import { type StudyColumns, unitStates } from './merge.ts';
import type { StudyResult } from './result.ts';
import type { SettledFigure, StoppingOutcome, StoppingRule } from './stopping-rule.ts';

/** Numbers of units, rising, after which the study may end; the last is its ceiling. */
export function stages(rule: StoppingRule, ceiling: number): number[] {
	if (rule.rule === 'number') return [ceiling];
	if (rule.rule === 'decided') return looks(ceiling);
	const batch = rule.batch ?? batchSize(0.95);
	const whole = Math.floor(ceiling / batch);
	const ends = Array.from({ length: whole }, (_, i) => (i + 1) * batch);
	return whole * batch === ceiling && whole > 0 ? ends : [...ends, ceiling];
}

/** Whether the rule ends the study with units 0 up to `study.units`, all of them done. */
export function isReached(rule: StoppingRule, scenario: Scenario, study: StudyColumns): boolean {
	if (rule.rule === 'number') return false;
	const outcome = stoppingOutcome(rule, study.units, study, choiceVerdicts(scenario, study, true));
	return outcome.rule !== 'number' && outcome.reached;
}

/**
 * What the rule says of units 0 up to `study.units`, all of them done: a function
 * of their figures in index order alone, so that the study ends at the same unit
 * for any number of workers.
 *
 * @param verdict of those units
 */
export function stoppingOutcome(
	rule: StoppingRule,
	ceiling: number,
	study: StudyColumns,
	verdict: StudyResult['verdict'],
): StoppingOutcome {
	if (rule.rule === 'number') return { rule: 'number' };
	const isWhole = !study.states.subarray(0, study.units).includes(unitStates.pending);
	if (rule.rule === 'decided') {
		const reached = isWhole && rule.choices.every((choice) => verdict[choice].decision !== 'undecided');
		return {
			...rule,
			ceiling,
			looks: looks(ceiling).filter((units) => units < study.units || (isWhole && units === study.units)),
			reached,
		};
	}
	const batch = rule.batch ?? batchSize(0.95);
	const figures: SettledFigure[] = [];
	for (let point = 0; point < study.points; point += 1) {
		choiceNames.forEach((choice, index) => {
			figures.push({ point, choice, ...settledFigure(study, { point, choice: index, batch, digits: rule.digits }) });
		});
	}
	const reached = isWhole && figures.every(({ settled, lost }) => settled || lost);
	return { rule: 'settled', digits: rule.digits, ceiling, batch, figures, reached };
}

/** JCGM 101:2008, 7.9.4, on whole batches of units in index order; units that could not be simulated are missing from theirs. */
function settledFigure(
	study: StudyColumns,
	{ point, choice, batch, digits }: { point: number; choice: number; batch: number; digits: number },
): Omit<SettledFigure, 'point' | 'choice'> {
	const batches: DrawFigures[] = [];
	const all: number[] = [];
	for (let from = 0; from + batch <= study.units; from += batch) {
		const values: number[] = [];
		for (let unit = from; unit < from + batch; unit += 1) {
			if (study.states[unit] === unitStates.finished) {
				values.push(study.columns.unitError[cellOf(study.points, unit, point, choice)] as number);
			}
		}
		batches.push(drawFigures(Float64Array.from(values), 0.95, 'symmetric'));
		for (const value of values) all.push(value);
	}
	const lost = all.includes(Number.POSITIVE_INFINITY);
	if (lost || batches.length < 2) return { tolerance: 0, errors: null, settled: false, lost };
	const { sd } = drawFigures(Float64Array.from(all), 0.95, 'symmetric');
	return { ...settling(batches, sd, digits), lost };
}
