import { expect, test, vi } from 'vitest';
import { mcnemar } from '../../shared/statistics/mcnemar.ts';
import { choiceVerdicts } from '../../shared/study/choice-verdict.ts';
import { emptyStudy, failUnits } from '../../shared/study/merge.ts';
import { nominalCompensation } from '../../shared/study/nominal-delay.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { unitJudge } from '../../shared/study/unit-passes.ts';
import { requirementSentence } from '../../shared/study/verdict-sentence.ts';
import { smallScenario } from './small-scenario.ts';

// hundreds of drives: slow where the machine is busy with other tests
vi.setConfig({ testTimeout: 60_000 });

const scenario = smallScenario({ requirement: { share: '99 %', confidence: '95 %' } });

/** Units of which the first `missing` could not be simulated and the next `failing` do not pass their second point. */
function study(units: number, failing: number, missing = 0) {
	const made = emptyStudy(units, 2);
	made.states.fill(1);
	failUnits(made, 0, missing, 'broke down');
	made.columns.sectors.fill(100);
	for (let unit = missing; unit < missing + failing; unit += 1) made.columns.lost[unit * 4 + 2] = 1;
	return made;
}
const halfBus = (...given: Parameters<typeof study>) => choiceVerdicts(scenario, study(...given), false).halfBus;
const plain = (sentence: string) => sentence.replaceAll('\u00a0', ' ');

test('299 drives without a failure hold a share of 99 % with 95 % confidence and quote the success run; 298 do not', () => {
	// success run n = ⌈ln(1 − C)/ln R⌉: 299 for C = 0.95, R = 0.99
	expect(halfBus(299, 0)).toMatchObject({ decision: 'holds', passed: 299, failed: 0, moreUnits: 0 });
	expect(plain(halfBus(299, 0).sentence)).toBe(
		'Half-bus holds: 299 of 299 drives pass, which shows at least 99.0 % (95 % confidence). None failed: a run of 299 drives without a failure shows 99.0 %.',
	);
	const { decision, moreUnits, sentence } = halfBus(298, 0);
	expect(decision).toBe('undecided');
	// one would do: the number is good to 1 %
	expect(moreUnits).toBeGreaterThanOrEqual(1);
	expect(moreUnits).toBeLessThanOrEqual(3);
	expect(sentence).toMatch(/A study of about 30[012] drives would decide it, at the share seen/);
	// limits of a number fixed beforehand are no longer what they say when drives are added until they decide
	expect(sentence).toContain('with another seed, or until decided');
	expect(choiceVerdicts(scenario, study(298, 0), true).halfBus.sentence).not.toContain('another seed');
});

test('one drive is told of in the singular', () => {
	expect(plain(halfBus(1, 0).sentence)).toMatch(
		/^Half-bus is undecided: 1 of 1 drive passes, .* None failed: a run of 1 drive without a failure shows 5\.0 % and no more\./,
	);
	expect(plain(halfBus(1, 1).sentence)).toContain('0 of 1 drive passes');
});

test('a drive that could not be simulated counts against “holds”', () => {
	const { decision, notSimulated, sentence } = halfBus(299, 0, 1);
	expect({ decision, notSimulated }).toEqual({ decision: 'undecided', notSimulated: 1 });
	expect(sentence).toContain('1 could not be simulated and count against it.');
	expect(sentence).not.toContain('None failed');
});

test('30 of 1000 drives that fail one of two points are too many for 99 %; the other choice is judged by itself', () => {
	const { halfBus: one, virtualNeutral } = choiceVerdicts(scenario, study(1000, 30), false);
	expect(one).toMatchObject({ decision: 'fails', passed: 970, failed: 30, limits: 'Clopper–Pearson' });
	expect(plain(one.sentence)).toMatch(/^Half-bus fails: 970 of 1000 drives pass, which leaves at most 97\.9 % where/);
	expect(virtualNeutral.decision).toBe('holds');
});

test('a study that stops by what it finds has the limits of a confidence sequence, wider than those of a fixed number', () => {
	const fixed = halfBus(1000, 8);
	const looked = choiceVerdicts(scenario, study(1000, 8), true).halfBus;
	expect(looked.limits).toBe('confidence sequence');
	expect(looked.low).toBeLessThan(fixed.low);
	expect(looked.high).toBeGreaterThan(fixed.high);
	expect(looked.sentence).toContain('however often it was looked at');
});

test('units not yet run count for nothing', () => {
	const begun = study(500, 0);
	begun.states.fill(0, 300);
	expect(choiceVerdicts(scenario, begun, false).halfBus).toMatchObject({ passed: 300, failed: 0, notSimulated: 0 });
	begun.states.fill(0);
	expect(choiceVerdicts(scenario, begun, false).halfBus.sentence).toBe('Half-bus: undecided, no drive was judged.');
});

test('the requirement is said in one sentence', () => {
	const requirement = { angleLimit: 5, quantile: 0.95, crossingsPerHour: 0.01, share: 0.99, confidence: 0.95 };
	expect(plain(requirementSentence(requirement))).toBe(
		"Required, with 95 % confidence, of 99 % of drives at every operating point: 95 % of a drive's commutations within 5°, at most 0.01 early, late and missed crossings an hour, lock kept and torque reached.",
	);
});

test.each([
	['measured sectors', { starts: 2, warmup: 6, settle: 6, measured: 24 }],
	['starts', { starts: 4, warmup: 6, settle: 6, measured: 12 }],
])('doubling the %s moves no more drives across the limit one way than the other', (_, trial) => {
	// the limit lies where about half of the drives pass, and a drift would show most
	const drives = 300;
	const judged = (of: object) => {
		const changed = smallScenario({
			points: [{ name: 'fast', speed: 6000, torque: 0.05 }],
			trial: of,
			requirement: { angleLimit: '4.2°', crossingsPerHour: 1e9, share: '50 %' },
		});
		const plan = { scenario: changed, seed: 'drift', compensation: nominalCompensation(changed).compensation };
		const { columns } = runShard(plan, 0, drives);
		const judge = unitJudge(changed);
		return Array.from({ length: drives }, (_, unit) => judge.passesPoint(columns, unit, 0, 0));
	};
	const before = judged({ starts: 2, warmup: 6, settle: 6, measured: 12 });
	const after = judged(trial);
	const passed = before.filter(Boolean).length;
	expect(passed).toBeGreaterThan(drives / 4);
	expect(passed).toBeLessThan((3 * drives) / 4);
	const lost = before.filter((passes, unit) => passes && !after[unit]).length;
	const won = before.filter((passes, unit) => !passes && after[unit]).length;
	expect(lost + won).toBeGreaterThan(20);
	// fixed seed; a systematic move would make this small
	expect(mcnemar(lost, won).exact).toBeGreaterThan(0.05);
});
