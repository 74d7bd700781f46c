import { expect, test } from 'vitest';
import { comparisonSentence } from '../../shared/study/comparison-sentence.ts';
import { passingPairs } from '../../shared/study/passing-pairs.ts';

/** Units in the order both, only half-bus, only virtual neutral, neither. */
const pairs = (both: number, first: number, second: number, neither: number) =>
	passingPairs(
		both + first + second + neither,
		(unit, choice) =>
			unit < both || (choice === 0 ? unit < both + first : unit >= both + first && unit < both + first + second),
		0.95,
	);

test('20, 12, 2, 16 of 50: exact McNemar p = 0.0129395, difference 0.20', () => {
	// Armitage and Berry, Statistical Methods in Medical Research (1994), p. 127; p recomputed with an independent library
	const { both, only, neither, difference, interval, p, better } = pairs(20, 12, 2, 16);
	expect({ both, only, neither }).toEqual({ both: 20, only: { halfBus: 12, virtualNeutral: 2 }, neither: 16 });
	expect(difference).toBeCloseTo(0.2, 12);
	expect(p).toBeCloseTo(0.0129395, 6);
	expect(better).toBe('halfBus');
	// square-and-add for pairs lies near the Wald interval 0.064 to 0.336 printed there
	expect(interval?.[0]).toBeGreaterThan(0.03);
	expect(interval?.[0]).toBeLessThan(0.09);
	expect(interval?.[1]).toBeLessThan(0.35);
});

test('which choice passes more drives is said with shares, difference, interval and test', () => {
	const sentence = comparisonSentence(pairs(900, 1, 80, 19), 0.95).replaceAll('\u00a0', ' ');
	expect(sentence).toMatch(
		/^Virtual neutral passes more drives: 98\.0 % against 90\.1 % with half-bus, 7\.9 percentage points more \(95 % interval \d\.\d to \d\.\d; 80 drives pass with it alone, 1 with the other alone, 19 with neither; McNemar's exact test: p below 1 in 10\u202f000\)\.$/,
	);
});

test('a difference that chance could make is said to be not shown', () => {
	expect(pairs(90, 5, 3, 2).better).toBe('not shown');
	expect(comparisonSentence(pairs(90, 5, 3, 2), 0.95)).toMatch(
		/^Neither choice is shown to pass more drives: 5 of 100 drives pass with half-bus alone and 3 with virtual neutral alone/,
	);
	expect(comparisonSentence(pairs(100, 0, 0, 0), 0.95)).toContain('every one of 100 drives passes with both or');
	expect(comparisonSentence(pairs(0, 0, 0, 0), 0.95)).toBe('No drive was judged with both choices.');
});

test('5 of 100 with one alone: the interval leaves 0 out, the exact test shows nothing, and the sentence says which decides', () => {
	// McNemar, exact: 2 · 2⁻⁵ = 0.0625
	const { interval, p, better } = pairs(95, 5, 0, 0);
	expect({ p, better }).toEqual({ p: 0.0625, better: 'not shown' });
	expect(interval?.[0]).toBeGreaterThan(0);
	expect(comparisonSentence(pairs(95, 5, 0, 0), 0.95)).toContain('just leaves 0 out; the exact test decides.');
	expect(comparisonSentence(pairs(90, 5, 3, 2), 0.95)).not.toContain('leaves 0 out');
});
