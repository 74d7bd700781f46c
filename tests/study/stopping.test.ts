import { expect, test } from 'vitest';
import { inverseNormal } from '../../shared/maths/inverse-normal.ts';
import { stream } from '../../shared/sampling/stream.ts';
import { choiceVerdicts } from '../../shared/study/choice-verdict.ts';
import { looks } from '../../shared/study/looks.ts';
import { emptyStudy, type StudyColumns, studyUpTo } from '../../shared/study/merge.ts';
import { isReached, stages, stoppingOutcome } from '../../shared/study/stopping.ts';
import { stoppedWords, stoppingSentence } from '../../shared/study/stopping-sentence.ts';
import { studyResult } from '../page/study-fixture.ts';
import { smallScenario } from './small-scenario.ts';

const scenario = smallScenario({
	points: [{ name: 'fast', speed: 6000, torque: 0.05 }],
	requirement: { share: '90 %' },
});

/** Finished units whose 95 % figures are normal, 10° ± `sd`, at one point. */
function normalStudy(units: number, sd: number): StudyColumns {
	const study = emptyStudy(units, 1);
	study.states.fill(1);
	study.columns.sectors.fill(24);
	const next = stream('stopping', 'test', units);
	for (let cell = 0; cell < units * 2; cell++) {
		study.columns.unitError[cell] = 10 + sd * inverseNormal(next.double());
	}
	return study;
}

test('looks come after 100 units and a quarter more each, the last at the ceiling', () => {
	expect(looks(300)).toEqual([100, 125, 157, 197, 247, 300]);
	expect(looks(60)).toEqual([60]);
	expect(looks(20_000)).toHaveLength(25);
});

test('a study until settled may end after each batch of 10 000 and at its ceiling', () => {
	// JCGM 101:2008, 7.9.4 b: M = max(J, 10⁴), J = 2000 for 95 %
	expect(stages({ rule: 'settled', digits: 1 }, 25_000)).toEqual([10_000, 20_000, 25_000]);
	expect(stages({ rule: 'settled', digits: 1, batch: 50 }, 100)).toEqual([50, 100]);
	expect(stages({ rule: 'number' }, 7)).toEqual([7]);
});

test('a figure of standard deviation 2° to one digit settles when twice the standard error of each is below 0.5°', () => {
	const study = normalStudy(2000, 2);
	const rule = { rule: 'settled', digits: 1, batch: 100 } as const;
	const end = stages(rule, 2000).find((units) => isReached(rule, scenario, studyUpTo(study, units))) ?? 0;
	// the limits settle last: order statistics 3 of 100 spread by about 0.6°, so about (2·0.6/0.5)² batches
	expect(end).toBeGreaterThanOrEqual(200);
	expect(end).toBeLessThanOrEqual(1200);
	const outcome = stoppingOutcome(rule, 2000, studyUpTo(study, end), choiceVerdicts(scenario, study, false));
	if (outcome.rule !== 'settled') throw new Error(outcome.rule);
	for (const { errors, tolerance } of outcome.figures) {
		expect(tolerance).toBe(0.5);
		for (const error of Object.values(errors ?? {})) expect(2 * error).toBeLessThan(0.5);
	}
	expect(stoppingSentence(outcome, end)).toMatch(
		/^Settled after .* 1 significant digit of the standard deviation, ± 0\.50°/,
	);
	// 0.2° asks for ten times finer figures
	expect(isReached(rule, scenario, normalStudy(200, 0.2))).toBe(false);
});

test('a choice that loses drives has no mean to settle: it is named and not waited for', () => {
	const study = normalStudy(2000, 2);
	study.columns.unitError[0] = Infinity;
	const rule = { rule: 'settled', digits: 1, batch: 100 } as const;
	const outcome = stoppingOutcome(rule, 2000, study, choiceVerdicts(scenario, study, false));
	if (outcome.rule !== 'settled') throw new Error(outcome.rule);
	expect(outcome.figures.map(({ lost, settled }) => [lost, settled])).toEqual([
		[true, false],
		[false, true],
	]);
	expect(outcome.reached).toBe(true);
	expect(stoppingSentence(outcome, 2000)).toContain('Where half-bus drives lost lock there is no mean to settle');
});

test('where both choices lose drives no figure is left to settle, and it is not said to have', () => {
	const study = normalStudy(2000, 2);
	study.columns.unitError.fill(Infinity, 0, 2);
	const rule = { rule: 'settled', digits: 1, batch: 100 } as const;
	const outcome = stoppingOutcome(rule, 2000, study, choiceVerdicts(scenario, study, false));
	const sentence = stoppingSentence(outcome, 2000);
	expect(sentence).toBe(
		'Not settled in 2000 drives: half-bus and virtual neutral drives lost lock, so that no mean is left to settle.',
	);
});

test('until decided, both choices are waited for unless one alone is asked for, and no unit may be outstanding', () => {
	const study = normalStudy(200, 2);
	// half-bus passes in all 200; of virtual neutral 180 pass, 90 %, which decides nothing
	study.columns.judgedError.fill(3);
	for (let unit = 0; unit < 20; unit++) study.columns.judgedError[unit * 2 + 1] = 30;
	const both = { rule: 'decided', choices: ['halfBus', 'virtualNeutral'] } as const;
	const one = { rule: 'decided', choices: ['halfBus'] } as const;
	expect(isReached(both, scenario, study)).toBe(false);
	expect(isReached(one, scenario, study)).toBe(true);
	study.states[150] = 0;
	const outcome = stoppingOutcome(one, 1000, study, choiceVerdicts(scenario, study, true));
	expect(outcome).toMatchObject({ reached: false, looks: [100, 125, 157, 197], ceiling: 1000 });
	expect(stoppingSentence(outcome, 200)).toContain('The verdict was not decided in 4 looks');
	expect(stoppingSentence({ rule: 'number' }, 200)).toBe('');
});

test('cut short, neither a verdict that was not decided nor figures that move are spoken of', () => {
	const rule = { rule: 'settled', digits: 1, batch: 100 } as const;
	const study = emptyStudy(100, 1);
	const settling = stoppingOutcome(rule, 1000, study, choiceVerdicts(scenario, study, true));
	expect(stoppingSentence(settling, 0, true)).toBe('Stopped after 0 drives, before the figures were settled.');
	const deciding = { rule: 'decided', choices: ['halfBus'] } as const;
	const outcome = stoppingOutcome(deciding, 1000, study, choiceVerdicts(scenario, study, true));
	expect(stoppingSentence(outcome, 1, true)).toBe('Stopped after 1 drive, before the verdict was decided.');
	expect(stoppingSentence(outcome, 100)).toContain(
		"the verdict's limits hold for every look, other intervals and p values are those of a number fixed beforehand",
	);
});

test('a look that was begun and not done is none: 125 drives without the last one were looked at once, at 100', () => {
	const study = normalStudy(125, 1);
	const rule = { rule: 'decided', choices: ['halfBus'] } as const;
	const looked = () => {
		const outcome = stoppingOutcome(rule, 300, study, choiceVerdicts(scenario, study, true));
		return 'looks' in outcome && outcome.looks;
	};
	expect(looked()).toEqual([100, 125]);
	study.states[124] = 0;
	expect(looked()).toEqual([100]);
});

test('a study cut short is told with the drives it had, not those asked for', () => {
	const stopping = { rule: 'decided', choices: ['halfBus'], ceiling: 900, looks: [100], reached: false } as const;
	const { provenance } = studyResult();
	const cut = { ...provenance, partial: true, units: { asked: 900, finished: 150, failed: 3 } };
	expect(stoppedWords({ stopping, provenance: cut })).toBe('Stopped after 153 drives, before the verdict was decided.');
});
