import { expect, test } from 'vitest';
import { emptyColumns } from '../../shared/study/columns.ts';
import { requirementOf, unitJudge } from '../../shared/study/unit-passes.ts';
import { smallScenario } from './small-scenario.ts';

// at 6000 rpm and 4 pole pairs 8 640 000 sectors an hour, at 7000 rpm 10 080 000
const scenario = smallScenario({
	requirement: { angleLimit: '5°', quantile: '95 %', crossingsPerHour: 8.64, share: '90 %', confidence: '95 %' },
});
const judge = unitJudge(scenario);
const halfBus = 0;

/** One unit whose two points have 100 sectors each, with the values given at half-bus's second point. */
function unit(changes: Readonly<Record<string, number>>) {
	const columns = emptyColumns(2 * 2);
	for (let cell = 0; cell < 4; cell += 1) {
		columns.sectors[cell] = 100;
		columns.judgedError[cell] = 3;
	}
	for (const [name, value] of Object.entries(changes)) columns[name as 'early'][2] = value;
	return columns;
}

test('a requirement is read from the scenario file', () => {
	expect(requirementOf(scenario)).toEqual({
		angleLimit: 5,
		quantile: 0.95,
		crossingsPerHour: 8.64,
		share: 0.9,
		confidence: 0.95,
	});
});

test.each([
	['an angle error of exactly 5°', { judgedError: 5 }, null],
	['an angle error of 5.001°', { judgedError: 5.001 }, 'angle'],
	// 8.64 in 10 080 000 sectors are 8.571e-5 in 100
	['a computed 8.5e-5 crossings in 100 sectors', { earlyChance: 5e-5, lateChance: 3e-5, missedChance: 0.5e-5 }, null],
	['a computed 8.6e-5 crossings', { earlyChance: 5e-5, lateChance: 3e-5, missedChance: 0.6e-5 }, 'rate'],
	['a counted crossing that was a rare chance', { early: 1, earlyChance: 1e-6 }, null],
	['a counted crossing where no chance can be computed', { early: 1, earlyChance: -1, lateChance: -1 }, 'rate'],
	['one lost run', { lost: 1, judgedError: Infinity }, 'lock'],
	['one run short of the torque', { torqueNotReached: 1 }, 'torque'],
])('%s at the second point decides: %o → %s', (_, changes, expected) => {
	const columns = unit(changes);
	expect(judge.shortcoming(columns, 0, 1, halfBus)).toBe(expected);
	expect(judge.passesPoint(columns, 0, 1, halfBus)).toBe(expected === null);
	// the study is passed by passing every point
	expect(judge.passesPoint(columns, 0, 0, halfBus)).toBe(true);
	expect(judge.passes(columns, 0, halfBus)).toBe(expected === null);
	// the other choice has its own cells
	expect(judge.passes(columns, 0, 1)).toBe(true);
});
