import { expect, test } from 'vitest';
import { caseFigures } from '../../shared/grades/case-figures.ts';
import { studyFor, unitStates } from '../../shared/study/merge.ts';
import { sectorsPerHour } from '../../shared/study/sectors-per-hour.ts';
import { smallScenario } from '../study/small-scenario.ts';

const point = { speed: 6000, torque: 0.05 };

test('crossings an hour: 3 in 30 sectors of two drives at a tenth of the hours, none at the other nine', () => {
	const scenario = smallScenario({
		points: [
			{ ...point, name: 'seldom', share: 0.1 },
			{ ...point, name: 'mostly', share: 0.9 },
		],
	});
	const study = studyFor(scenario, 2);
	study.states.fill(unitStates.finished);
	// [unit][point][choice]
	study.columns.sectors.set([10, 10, 10, 10, 20, 20, 20, 20]);
	study.columns.earlyChance.set([3, 0, 0, 0, 0, 0, 0, 0]);
	const { halfBus, virtualNeutral } = caseFigures(
		{ scenario, seed: 's', compensation: { halfBus: 0, virtualNeutral: 0 } },
		study,
		'',
	).choices;
	const hourly = sectorsPerHour(scenario, scenario.points[0] as (typeof scenario.points)[0]);
	expect(halfBus.points.map(({ crossingsPerHour }) => crossingsPerHour)).toEqual([0.1 * hourly, 0]);
	expect(halfBus.crossingsPerHour).toBeCloseTo(0.01 * hourly, 6);
	expect(virtualNeutral.crossingsPerHour).toBe(0);
});
