import { expect, test } from 'vitest';
import type { PerChoice } from '../../shared/drive/drive.ts';
import type { RangeResult, SlowestOfChoice } from '../../shared/range/range-result.ts';
import { rangeSentence } from '../../shared/range/range-sentence.ts';
import { studyResult } from '../page/study-fixture.ts';
import { rangeResult } from './range-fixture.ts';

const plain = (over: Partial<RangeResult> = {}): string => rangeSentence(rangeResult(over)).replaceAll('\u00a0', ' ');
const end = (over: Partial<SlowestOfChoice> = {}): SlowestOfChoice => ({
	fastest: 3000,
	holds: 820,
	fails: 500,
	decision: 'undecided',
	turnedRound: 0,
	...over,
});
const searched = (choices: PerChoice<SlowestOfChoice>, at = {}): Partial<RangeResult> => ({
	slowest: [{ at, resolution: 0.02, choices }],
});

const asked =
	'It holds where at least 95 % of drives pass, shown with 95 % confidence at each value by 200 drives, the same at all of them.';

test('down to which speed it holds is said for each choice, with the next slower one and the load line', () => {
	expect(plain(searched({ halfBus: end(), virtualNeutral: end({ holds: 1200, fails: 820, decision: 'fails' }) }))).toBe(
		'With half-bus sensing the requirement holds down to 820 rpm and is no longer shown to hold at 500 rpm; ' +
			'with virtual neutral sensing the requirement holds down to 1200 rpm and fails at 820 rpm. The slowest speed is narrowed down to 2 %. ' +
			`This is for the load line through slow: torque as the square of the speed. ${asked}`,
	);
	expect(plain({ load: 'constant' })).toContain(' This is for the torque of slow, the same at every speed. ');
	expect(plain({ load: null })).not.toContain('This is for');
});

test('a choice that holds nowhere, at every speed, or not at the faster ones is said to', () => {
	const everywhere = end({ holds: 500, fails: null, decision: null });
	const nowhere = end({ fastest: null, holds: null, fails: null, decision: null });
	const both = plain(searched({ halfBus: everywhere, virtualNeutral: nowhere }));
	expect(both).toMatch(
		/^With half-bus sensing the requirement holds at every speed looked at, down to 500 rpm; with virtual neutral sensing the requirement is not shown to hold at any speed looked at\. /,
	);
	// nothing was narrowed down
	expect(both).not.toContain('narrowed');
	expect(plain(searched({ halfBus: end({ fastest: 1200 }), virtualNeutral: end() }))).toMatch(
		/^With half-bus sensing the requirement holds from 1200 rpm \(not at the faster ones\) down to 820 rpm and .*; with virtual neutral sensing the requirement holds down to 820 rpm and /,
	);
});

test('drives that pass at a speed and not at a faster one make the confidence approximate; the other axis is named', () => {
	const turned = { halfBus: end({ turnedRound: 0 }), virtualNeutral: end({ turnedRound: 3 }) };
	const words = plain(searched(turned, { 'operation.torque': 0.05 }));
	expect(words).toMatch(/^At load torque 50 mN·m with half-bus sensing the requirement holds down to/);
	expect(words).toContain(
		'Not every drive that passes at a speed passes at the faster ones (all but 0 with half-bus, 3 with virtual neutral), so take the confidence of the search as approximate.',
	);
	expect(plain()).not.toContain('approximate');
});

test('where no slowest speed was sought, it says at how many values it holds and where most drives pass', () => {
	// 200, 200 and 198 of 200 hold with half-bus, 200 and 199 with the virtual neutral; the first of equal shares is named
	expect(plain({ slowest: null })).toBe(
		'4 values of speed were looked at: with half-bus it holds at 3 of them (most drives pass at 1200 rpm: 100 %); ' +
			`with virtual neutral it holds at 2 of them (most drives pass at 3000 rpm: 100 %). ${asked}`,
	);
	const { values } = rangeResult();
	expect(plain({ slowest: null, values: values.slice(1, 2) })).toMatch(
		/^One value of speed was looked at: with half-bus it holds everywhere /,
	);
	const unjudged = values.slice(0, 2).map((value, place) => {
		const { halfBus, virtualNeutral } = value.choices;
		const share = place === 0 ? Number.NaN : halfBus.verdict.share;
		return { ...value, choices: { halfBus: { ...halfBus, verdict: { ...halfBus.verdict, share } }, virtualNeutral } };
	});
	// a value of which no drive was judged is not where most pass
	expect(plain({ slowest: null, values: unjudged })).toContain('(most drives pass at 1200 rpm: 100 %); ');
	const none = values.slice(0, 1).map((value) => {
		const { halfBus, virtualNeutral } = value.choices;
		const lost = { ...halfBus, passed: 0, verdict: { ...halfBus.verdict, share: 0, decision: 'fails' as const } };
		return { ...value, choices: { halfBus: lost, virtualNeutral } };
	});
	expect(plain({ slowest: null, values: none })).toContain('with half-bus it fails everywhere (no drive passes); ');
	const open = values.slice(1, 2).map((value) => {
		const { halfBus, virtualNeutral } = value.choices;
		const undecided = { ...halfBus, verdict: { ...halfBus.verdict, decision: 'undecided' as const } };
		return { ...value, choices: { halfBus: undecided, virtualNeutral } };
	});
	expect(plain({ slowest: null, values: open })).toContain(
		'with half-bus it is shown to hold nowhere (most drives pass at 1200 rpm',
	);
});

test('20 drives cannot show 95 % with 95 % confidence, which takes 59; without a finished drive nothing is shown', () => {
	// success run n = ⌈ln(1 − C)/ln R⌉
	expect(plain({ unitsPerValue: 20 })).toMatch(/ 20 drives are too few to show it: .*; 59 could\.$/);
	const { provenance } = studyResult();
	const nothing = { ...provenance, units: { asked: 800, finished: 0, failed: 800 } };
	expect(plain({ provenance: nothing })).toBe('None of the 800 drives was finished: nothing is shown.');
});

test('cut short it says how many of the drives asked for each value had, and reminds by those that they are too few', () => {
	const { provenance } = rangeResult();
	const having = (...finished: readonly number[]): string =>
		plain({
			slowest: null,
			provenance: { ...provenance, partial: true },
			values: rangeResult().values.map((value, place) => {
				const failed = place === 0 ? 1 : 0;
				return { ...value, units: { asked: 200, finished: (finished[place] as number) - failed, failed } };
			}),
		});
	// a drive that could not be simulated counts against the verdict, and so among its drives
	expect(having(36, 36, 35, 35)).toMatch(
		/ shown with 95 % confidence at each value by 35 to 36 of the 200 drives asked for\. 35 drives are too few to show it: .*; 59 could\.$/,
	);
	expect(having(70, 70, 70, 70)).toMatch(/ at each value by 70 of the 200 drives asked for\.$/);
	// a value that was not begun shows nothing by itself
	expect(having(200, 200, 200, 0)).toMatch(/ at each value by 0 to 200 of the 200 drives asked for\.$/);
	expect(having(200, 200, 200, 200)).toContain(asked);
});

test('values that ended early are said to have had fewer drives, and are no reminder that these are too few', () => {
	const [first, ...others] = rangeResult().values;
	if (!first) throw new Error('no value');
	const early = { ...first, units: { asked: 50, finished: 50, failed: 0 } };
	const { provenance } = rangeResult();
	const partial = { ...provenance, partial: true };
	// also while the search for the slowest speed goes on
	expect(plain({ slowest: null, values: [early, ...others], provenance: partial })).toBe(
		plain({ slowest: null, values: [early, ...others] }),
	);
	expect(plain({ slowest: null, values: [early, ...others] })).toMatch(
		/ by 200 drives, the same at all of them, fewer where it fails for certain with both choices\.$/,
	);
});
