import { expect, test } from 'vitest';
import { choiceNames } from '../../shared/drive/drive.ts';
import { pointVerdicts, verdictWords } from '../../shared/one-drive/point-verdict.ts';
import { unitOutcomes } from '../../shared/one-drive/unit-outcomes.ts';
import type { OperatingPoint } from '../../shared/scenario/scenario.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { requirementOf, unitJudge } from '../../shared/study/unit-passes.ts';
import { driveQuestion } from '../../src/page/model/one-drive/drive-question.ts';
import { demoPlan } from './demo-plan.ts';

const verdictsOf = (plan: ReturnType<typeof demoPlan>, unit: number) => {
	const starts = plan.scenario.values['trial.starts'] as number;
	const { points } = plan.scenario;
	const { outcomes } = unitOutcomes({ plan, unit }, 0, points.length * starts, () => {});
	return points.map((point, i) => pointVerdicts(outcomes.slice(i * starts, (i + 1) * starts), plan.scenario, point));
};

test.each([
	['as it is', {}],
	['so noisy that the rate or lock decides', { 'noise.sigma': 0.12, 'trial.starts': 2 }],
	['short of torque', { 'operation.torque': 0.2, 'trial.starts': 2 }],
])('a drive %s is judged as the study judges it', (_what, values) => {
	const plan = demoPlan('fan-24v.json', values);
	const judge = unitJudge(plan.scenario);
	for (const unit of [3, 19]) {
		const { columns } = runShard(plan, unit, unit + 1);
		for (const [point, verdicts] of verdictsOf(plan, unit).entries()) {
			for (const [c, choice] of choiceNames.entries()) {
				expect(verdicts?.[choice].shortcoming).toBe(judge.shortcoming(columns, 0, point, c));
				expect(verdicts?.[choice].judgedError).toBe(columns.judgedError[point * choiceNames.length + c]);
			}
		}
	}
});

test('a drive whose starts could not all be simulated has no verdict', () => {
	const plan = demoPlan('fan-24v.json', { 'trial.starts': 1 });
	const [point] = plan.scenario.points as [OperatingPoint];
	expect(pointVerdicts([{ failure: 'no solution' }], plan.scenario, point)).toBeNull();
});

const passing = { shortcoming: null, starts: 4, lost: 0, torqueNotReached: 0, judgedError: 4.98, perHour: 1e-9 };
const limits = requirementOf(demoPlan('fan-24v.json').scenario);
const words = (over: Partial<Parameters<typeof verdictWords>[0]>) =>
	verdictWords({ ...passing, ...over }, { ...limits, crossingsPerHour: 0.01 }, 'slow').replaceAll(
		/[\u00a0\u202f]/g,
		' ',
	);

test('the verdict says by which figure the drive passes or fails', () => {
	expect(words({})).toBe('Over its 4 starts 95 % lie within 4.98°: the drive passes at slow.');
	expect(words({ shortcoming: 'angle', judgedError: 5.41 })).toBe(
		'Over its 4 starts 95 % lie within 5.41°: the drive fails at slow.',
	);
	expect(words({ shortcoming: 'lock', lost: 1 })).toBe(
		'From 1 of its 4 starts it loses lock: the drive fails at slow.',
	);
	expect(words({ shortcoming: 'rate', perHour: 0.3 })).toBe(
		'Over its 4 starts 0.3 wrong crossings an hour are to be expected, where 0.01 may be: the drive fails at slow.',
	);
	expect(words({ starts: 1 })).toBe('This is its only start: the drive passes at slow.');
});

test('the heading asks why a drive failed only of one that did', () => {
	const failing = { ...passing, shortcoming: 'angle' as const };
	const of = (halfBus: typeof passing | typeof failing, virtualNeutral = halfBus) => ({ halfBus, virtualNeutral });
	const asked = { point: 'slow', isBoard: false, isNoted: true };
	expect(driveQuestion({ ...asked, verdicts: of(failing) })).toBe('Why did this drive fail?');
	expect(driveQuestion({ ...asked, verdicts: of(failing, passing) })).toBe('Why did this drive fail with half-bus?');
	expect(driveQuestion({ ...asked, verdicts: of(passing) })).toBe(
		'This drive passes at slow: what went wrong all the same?',
	);
	expect(driveQuestion({ ...asked, verdicts: of(passing), isNoted: false })).toBe(
		'This drive passes at slow, and nothing went wrong',
	);
	expect(driveQuestion({ ...asked, verdicts: null })).toBe('How did this drive do?');
	expect(driveQuestion({ ...asked, verdicts: null, isBoard: true })).toBe('What went wrong with this board?');
});
