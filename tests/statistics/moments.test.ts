import { describe, expect, it } from 'vitest';
import { Moments } from '../../shared/statistics/moments.ts';

/** NIST StRD NumAcc2–4: one value, then (below, above) 500 times. The generated pattern fits the certified values. */
const alternating = (base: number): number[] => [
	base + 0.2,
	...Array.from({ length: 1000 }, (_, i) => base + (i % 2 === 0 ? 0.1 : 0.3)),
];

const digits = (value: number, certified: number): number =>
	value === certified ? 16 : -Math.log10(Math.abs(value - certified) / Math.abs(certified));

function momentsOf(values: readonly number[]): Moments {
	const moments = new Moments();
	for (const value of values) moments.add(value);
	return moments;
}

describe('streaming moments', () => {
	it.each([1, 7, 500, 1000])('parts split at %s and merged agree with the whole to 11 digits', (at) => {
		const values = alternating(1);
		const merged = momentsOf(values.slice(0, at));
		merged.merge(momentsOf(values.slice(at)));
		const whole = momentsOf(values);
		expect(merged.count).toBe(whole.count);
		expect(digits(merged.mean, whole.mean)).toBeGreaterThan(11);
		expect(digits(merged.sd, whole.sd)).toBeGreaterThan(11);
		expect([merged.min, merged.max]).toEqual([1.1, 1.3]);
	});

	it('merging with nothing changes nothing; one value has no s; none has no mean', () => {
		const one = momentsOf([3]);
		one.merge(new Moments());
		expect([one.count, one.mean, one.min, one.max]).toEqual([1, 3, 3, 3]);
		expect(one.sd).toBeNaN();
		const none = new Moments();
		expect(none.mean).toBeNaN();
		none.merge(one);
		expect(none.mean).toBe(3);
	});
});
