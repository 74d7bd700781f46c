import { describe, expect, it } from 'vitest';
import { verdict } from '../../shared/statistics/verdict.ts';
import { binomialCoverage } from './binomial-coverage.ts';

describe('verdict', () => {
	it('59 of 59 holds 95 % with 95 % confidence, 58 of 58 is undecided and wants one more', () => {
		// success run: n = 59 (published)
		expect(verdict({ passed: 59, failed: 0 }, 0.95)).toMatchObject({ decision: 'holds', moreUnits: 0 });
		const short = verdict({ passed: 58, failed: 0 }, 0.95);
		expect(short).toMatchObject({ decision: 'undecided', moreUnits: 1 });
		expect(short.successRun).toBeCloseTo(0.05 ** (1 / 58), 13);
	});

	it('one failure takes 93 units (Wilks), and quotes no success run', () => {
		expect(verdict({ passed: 92, failed: 1 }, 0.95)).toMatchObject({ decision: 'holds', successRun: null });
		expect(verdict({ passed: 91, failed: 1 }, 0.95).decision).toBe('undecided');
	});

	it('half passing fails 95 %; on the limit no number of units is proposed', () => {
		expect(verdict({ passed: 50, failed: 50 }, 0.95)).toMatchObject({ decision: 'fails', moreUnits: 0 });
		expect(verdict({ passed: 95, failed: 5 }, 0.95)).toMatchObject({ decision: 'undecided', moreUnits: null });
	});

	it('the number of units it proposes decides with a tenth more and not with a tenth fewer, above and below the limit', () => {
		for (const [passed, failed] of [
			[97, 3],
			[940, 60],
			[480, 20],
		] as const) {
			const first = verdict({ passed, failed }, 0.95);
			expect(first.decision).toBe('undecided');
			const scale = (factor: number) => {
				const units = Math.round((passed + failed + (first.moreUnits as number)) * factor);
				const passing = Math.round((passed / (passed + failed)) * units);
				return verdict({ passed: passing, failed: units - passing }, 0.95).decision;
			};
			expect(scale(1.1)).not.toBe('undecided');
			expect(scale(0.9)).toBe('undecided');
		}
	});

	it('units not simulated count against either decision', () => {
		expect(verdict({ passed: 59, failed: 0, notSimulated: 1 }, 0.95)).toMatchObject({
			decision: 'undecided',
			successRun: null,
		});
		expect(verdict({ passed: 5, failed: 5, notSimulated: 90 }, 0.95).decision).toBe('undecided');
	});

	it('is wrong either way with at most 5 % at the limit itself, for 60 to 1000 units (by summation)', () => {
		for (const units of [60, 93, 200, 1000]) {
			for (const share of [0.9, 0.95, 0.99]) {
				const decided = Array.from(
					{ length: units + 1 },
					(_, passed) => verdict({ passed, failed: units - passed }, share).decision,
				);
				expect(binomialCoverage(units, share, (x) => decided[x] !== 'holds').coverage).toBeGreaterThanOrEqual(
					0.95 - 1e-9,
				);
				expect(binomialCoverage(units, share, (x) => decided[x] !== 'fails').coverage).toBeGreaterThanOrEqual(
					0.95 - 1e-9,
				);
			}
		}
	});

	it('without units nothing is known; shares of 1 and broken counts are refused', () => {
		expect(verdict({ passed: 0, failed: 0 }, 0.95)).toMatchObject({
			decision: 'undecided',
			low: 0,
			high: 1,
			moreUnits: 59,
		});
		expect(() => verdict({ passed: 1, failed: 0 }, 1)).toThrow(RangeError);
		expect(() => verdict({ passed: -1, failed: 0 }, 0.9)).toThrow(RangeError);
	});
});
