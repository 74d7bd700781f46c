import { describe, expect, it } from 'vitest';
import { coverageInterval } from '../../shared/statistics/coverage-interval.ts';

const ramp = (count: number): number[] => Array.from({ length: count }, (_, i) => i + 1);

describe('coverage interval', () => {
	it('of 1 … 1000 at 95 % runs from the 25th to the 975th value: q = 950, r = 25', () => {
		// JCGM 101:2008, 7.7.2: q = pM = 950, r = (M − q)/2
		expect(coverageInterval(ramp(1000))).toEqual({ low: 25, high: 975 });
	});

	it('of 1 … 1001 has q = 951 and r = 25; of 1 … 1010 q = 960 and r = 25', () => {
		// pM = 950.95 rounds to 951, (M − q)/2 = 25; pM = 959.5 to int(960), (M − q)/2 = 25
		expect(coverageInterval(ramp(1001))).toEqual({ low: 25, high: 976 });
		expect(coverageInterval(ramp(1010))).toEqual({ low: 25, high: 985 });
	});

	it('of 1 … 101 has q = 96 and r = int((M − q + 1)/2) = 3', () => {
		expect(coverageInterval(ramp(101))).toEqual({ low: 3, high: 99 });
	});

	it('the shortest of skew values starts at their dense end, and of even ones is no longer than the symmetric', () => {
		const skew = ramp(1000).map((i) => (i / 1000) ** 3);
		expect(coverageInterval(skew, 0.95, 'shortest')).toEqual({ low: skew[0], high: skew[950] });
		expect(coverageInterval(ramp(1000), 0.95, 'shortest')).toEqual({ low: 1, high: 951 });
	});

	it('too few values give null, and +∞ among them reaches the symmetric limit only', () => {
		expect(coverageInterval(ramp(5))).toBeNull();
		expect(coverageInterval([])).toBeNull();
		const lost = [...ramp(970), ...new Array<number>(30).fill(Infinity)];
		expect(coverageInterval(lost)?.high).toBe(Infinity);
		expect(coverageInterval(lost, 0.95, 'shortest')?.high).toBeLessThan(971);
	});
});
