import { expect, test } from 'vitest';
import { headlines, wordsOf } from '../../shared/words/change.ts';

const { print } = headlines.find(({ name }) => name === 'crossings') ?? expect.unreachable();
const rates = (before: number, after: number, low: number, high: number) =>
	wordsOf({ before, after, change: after - before, low, high }, print);

test('rates that both are below what is printed have no change to tell, and no sign of one', () => {
	expect(rates(4e-25, 3e-30, -5e-25, -3e-25)).toEqual({
		before: '<\u00a010⁻¹⁸',
		after: '<\u00a010⁻¹⁸',
		step: '',
		interval: 'too small to tell apart',
		isShown: false,
	});
	// without limits it is as little to be told
	expect(rates(0, 3e-30, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY)?.step).toBe('');
});

test('a rate that comes to be seen has a change; a limit too small to print has no sign', () => {
	expect(rates(4e-25, 2e-9, 5e-20, 3e-9)).toMatchObject({
		step: '+2.0\u00a0×\u00a010⁻⁹ ±\u00a02.0\u00a0×\u00a010⁻⁹',
		interval: '<\u00a010⁻¹⁸ … +3.0\u00a0×\u00a010⁻⁹',
		isShown: true,
	});
	expect(rates(2e-9, 2e-9, -1e-9, 1e-9)?.step).toBe('0 ±\u00a01.0\u00a0×\u00a010⁻⁹');
});
