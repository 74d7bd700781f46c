import { expect, test } from 'vitest';
import { envelopeSentence } from '../../shared/envelope/envelope-sentence.ts';
import { worstOf } from '../../shared/envelope/worst.ts';
import { verdict } from '../../shared/statistics/verdict.ts';
import type { VariantChoice, VariantFigures, VariantPoint } from '../../shared/variants/variant-figures.ts';
import { envelopeResult } from '../range/range-fixture.ts';

/** Figures of 100 drives of which so many pass. */
function figures(passed: number, q95 = 4, computed: number | null = 1e-6, finished = 100): VariantFigures {
	const choice = {
		passed,
		verdict: verdict({ passed, failed: 100 - passed }, 0.9),
		unitError: { median: 3, q95, medianInterval: null, q95Interval: null },
		crossingsPerHour: { counted: 0, computed },
		points: [],
	};
	return {
		units: { asked: 100, finished, failed: 100 - finished },
		choices: { halfBus: choice, virtualNeutral: choice },
	};
}

test.each([
	['the smallest share of drives passes, whatever the errors', [figures(97, 9), figures(95, 3), figures(96, 8)], 1],
	['of equal shares 1 drive in 20 errs most', [figures(95, 4, 1), figures(95, 6), figures(95, 5, 1)], 1],
	[
		'of equal errors the computed rate is largest',
		[figures(95, 4, 1e-9), figures(95, 4, 1e-3), figures(95, 4, null)],
		1,
	],
	['of equal ones it comes first', [figures(95), figures(95)], 0],
	['drives lose lock', [figures(95, 60), figures(95, Number.POSITIVE_INFINITY)], 1],
	['anything was finished', [figures(0, 4, 1, 0), figures(95), figures(96)], 1],
])('the worst combination is where %s', (_, combinations, place) => {
	expect(worstOf(combinations, 'halfBus')).toBe(place);
});

test('without a finished drive no combination is the worst', () => {
	expect(worstOf([figures(0, 4, 1, 0)], 'virtualNeutral')).toBeNull();
	expect(worstOf([], 'halfBus')).toBeNull();
});

const plain = (over: Partial<ReturnType<typeof envelopeResult>> = {}): string =>
	envelopeSentence({ ...envelopeResult(), ...over }).replaceAll('\u00a0', ' ');

test('the sentence names the worst combination of each choice with its limits, what passes there and what everywhere', () => {
	// 197 and 180 of 200 at the second combination; 190 of 200 everywhere
	expect(plain()).toBe(
		'With half-bus sensing the worst is slow with speed low (882 rpm), bus voltage high (25.2 V): 98.5 % of drives pass there and 1 drive in 20 is beyond 4.40°; the requirement holds there, and 95.0 % of drives pass at every combination. ' +
			'With virtual neutral sensing the worst is slow with speed low (882 rpm), bus voltage high (25.2 V): 90.0 % of drives pass there and 1 drive in 20 is beyond 5.40°; the requirement fails there, and 95.0 % of drives pass at every combination. ' +
			'All 4 combinations of the limits of the conditions were run.',
	);
	expect(plain({ thinned: { strength: 3 }, possible: 128 })).toContain(
		'Of 128 combinations of the limits of the conditions 3 were run: a regular fraction in which any 3 conditions of a point',
	);
});

test('20 drives cannot show 95 % with 95 % confidence, which takes 59; without a finished drive nothing is shown', () => {
	// success run n = ⌈ln(1 − C)/ln R⌉
	expect(plain({ unitsPerCombination: 20 })).toMatch(
		/ 20 drives are too few to show that the requirement holds: .*; 59 could\.$/,
	);
	const { provenance } = envelopeResult();
	expect(plain({ provenance: { ...provenance, units: { asked: 800, finished: 0, failed: 800 } } })).toBe(
		'None of the 800 drives was finished: nothing is shown.',
	);
});

test('cut short it says how many of the drives asked for each combination had, and that the search was not finished', () => {
	const { combinations, provenance } = envelopeResult();
	const cut = (over: Partial<ReturnType<typeof envelopeResult>> = {}): string =>
		plain({
			provenance: { ...provenance, partial: true },
			combinations: combinations.map((one, place) => ({
				...one,
				units: { asked: 200, finished: 35 + Number(place === 0), failed: 0 },
			})),
			...over,
		});
	expect(cut()).toMatch(
		/ Stopped early, each was run with 35 to 36 of the 200 drives asked for\. 35 drives are too few to show that the requirement holds: .*; 59 could\.$/,
	);
	expect(plain({ thinned: { strength: 3 } })).toContain(' until none was worse.');
	expect(cut({ thinned: { strength: 3 } })).toMatch(
		/ meet in every combination of their limits; the search from the worst of each choice for one that is worse was not finished\. Stopped early, /,
	);
});

/** The sentence where half-bus at the worst combination is like this, and the other choice has no worst. */
function ofWorst(over: (halfBus: VariantChoice) => Partial<VariantChoice>): string {
	const [one, ...others] = envelopeResult().combinations;
	if (one === undefined) throw new Error('a combination is needed');
	const { halfBus } = one.choices;
	return plain({
		combinations: [
			{ ...one, limits: {}, choices: { ...one.choices, halfBus: { ...halfBus, ...over(halfBus) } } },
			...others,
		],
		worst: { halfBus: 0, virtualNeutral: null },
	});
}

test('a worst combination in which 1 drive in 20 loses lock says so, and a choice without one says nothing', () => {
	const words = ofWorst(({ unitError }) => ({ unitError: { ...unitError, q95: Number.POSITIVE_INFINITY } }));
	expect(words).toMatch(
		/^With half-bus sensing the worst is slow: 99\.5 % of drives pass there and 1 drive in 20 loses lock; /,
	);
	expect(words).not.toContain('virtual neutral');
});

test('where the median drive loses lock, at least half of them do, and every one where every run did', () => {
	const median = Number.POSITIVE_INFINITY;
	const lostIn = (lost: number): string =>
		ofWorst(({ unitError, verdict: seen }) => ({
			verdict: { ...seen, share: 0 },
			unitError: { ...unitError, median, q95: median },
			points: [{ lost, runs: 800 } as VariantPoint],
		}));
	expect(lostIn(800)).toContain(': 0 % of drives pass there and every drive loses lock; ');
	expect(lostIn(700)).toContain(': 0 % of drives pass there and at least half of the drives lose lock; ');
});
