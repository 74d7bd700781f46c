import { expect, test } from 'vitest';
import { headlineChanges, headlines, inDegrees, inShares, wordsOf } from '../../shared/words/change.ts';

const { print } = headlines.find(({ name }) => name === 'crossings') ?? expect.unreachable();
const rates = (before: number, after: number, low: number, high: number) =>
	wordsOf({ before, after, change: after - before, low, high }, print);

test('rates that both are below what is printed have no change to tell, and no sign of one', () => {
	expect(rates(4e-25, 3e-30, -5e-25, -3e-25)).toEqual({
		before: '<\u00a010⁻¹⁸',
		after: '<\u00a010⁻¹⁸',
		change: '',
		step: '',
		interval: 'too small to tell apart',
		isShown: false,
	});
	// without limits it is as little to be told
	expect(rates(0, 3e-30, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY)?.step).toBe('');
});

test('a rate that comes to be seen has a change; a limit too small to print has no sign', () => {
	expect(rates(4e-25, 2e-9, 5e-20, 3e-9)).toMatchObject({
		change: '+2.0\u00a0×\u00a010⁻⁹',
		step: '+2.0\u00a0×\u00a010⁻⁹ ±\u00a02.0\u00a0×\u00a010⁻⁹',
		interval: '<\u00a010⁻¹⁸ … +3.0\u00a0×\u00a010⁻⁹',
		isShown: true,
	});
	expect(rates(2e-9, 2e-9, -1e-9, 1e-9)?.step).toBe('0 ±\u00a01.0\u00a0×\u00a010⁻⁹');
});

test('a rate without a change to state is told to be unseen where it was counted, never where it was computed', () => {
	const even = { before: 2, after: 1, change: -1, low: -1.5, high: 0.25 };
	const of = (crossingsBy: 'computed' | 'counted') => {
		return { typical: even, oneInTwenty: even, crossings: null, crossingsBy, passing: even };
	};
	const told = (by: 'computed' | 'counted', units: number) => {
		const change = {
			choices: { halfBus: of(by), virtualNeutral: of(by) },
			gap: even,
			units,
			unitsAfter: units,
			paired: true,
		};
		const crossings = headlineChanges(change).find(({ note }) => note.includes(by));
		return [crossings?.choices.halfBus, crossings?.missing.halfBus];
	};
	expect(told('counted', 200)).toEqual([null, 'none seen on one side, or on both']);
	expect(told('computed', 200)).toEqual([null, 'too small to be computed on one side, or on both']);
	expect(told('computed', 1)).toEqual([null, 'too few drives to tell']);
});

test('a change stands alone where its interval does, and with ± where that is all there is', () => {
	const words = wordsOf({ before: 2, after: 1, change: -1, low: -1.5, high: 0.25 }, headlines[0]?.print ?? print);
	expect(words).toMatchObject({ change: '−1.00°', step: '−1.00° ±\u00a01.25°', interval: '−1.50° … +0.25°' });
});

test('a reach below the finest that is told is told as that, where it would read as none', () => {
	const small = { before: 2, after: 1.96, change: -0.04, low: -0.043, high: -0.037 };
	expect(wordsOf(small, inDegrees)?.step).toBe('−0.04° ±\u00a00.00°');
	expect(wordsOf(small, { ...inDegrees, finest: 0.01 })?.step).toBe('−0.04° ±\u00a00.01°');
	expect(wordsOf({ ...small, low: -0.06 }, { ...inDegrees, finest: 0.01 })?.step).toBe('−0.04° ±\u00a00.02°');
});

test('no step at all of a share is told as finely as its reach: 0.0 ± 3.0 points', () => {
	expect(wordsOf({ before: 1, after: 1, change: 0, low: -0.03, high: 0.03 }, inShares)).toMatchObject({
		before: '100\u00a0%',
		step: '0.0 ±\u00a03.0\u00a0points',
	});
});
