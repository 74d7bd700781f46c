import { describe, expect, it } from 'vitest';
import { decide, decisionsAhead, verdict } from '../../shared/statistics/verdict.ts';
import { binomialCoverage } from './binomial-coverage.ts';

describe('decisionsAhead', () => {
	it('is all that 24 units can still come to, for every number passed, failed and not simulated so far', () => {
		const order = ['fails', 'undecided', 'holds'];
		const place = (passed: number, failed: number, notSimulated: number): number =>
			order.indexOf(verdict({ passed, failed, notSimulated }, 0.9, 0.9).decision);
		let certain = 0;
		for (let notSimulated = 0; notSimulated <= 4; notSimulated += 2) {
			for (let passed = 0; passed + notSimulated <= 24; passed += 1) {
				for (let failed = 0; passed + failed + notSimulated <= 24; failed += 1) {
					const ahead = 24 - passed - failed - notSimulated;
					const all = [];
					for (let more = 0; more <= ahead; more += 1) {
						for (let lost = 0; more + lost <= ahead; lost += 1) {
							all.push(place(passed + more, failed + (ahead - more - lost), notSimulated + lost));
						}
					}
					const { worst, best } = decisionsAhead({ passed, failed, notSimulated }, 24, 0.9, 0.9);
					expect([worst, best]).toEqual([order[Math.min(...all)], order[Math.max(...all)]]);
					if (worst !== best || ahead === 0) continue;
					certain += 1;
					// what the units so far say by themselves is then the same
					if (worst !== 'undecided') expect(verdict({ passed, failed, notSimulated }, 0.9, 0.9).decision).toBe(worst);
				}
			}
		}
		expect(certain).toBeGreaterThan(100);
	});

	it('ten failures of the first 50 decide 95 % of 100 for good, nine and fifty passed ones do not', () => {
		// 100 units fail 95 % with 95 % confidence from 10 failures on: Σ_{k ≤ 90} C(100, k) 0.95^k 0.05^(100 − k) = 0.028, ≤ 91: 0.063 (by summation)
		expect(decisionsAhead({ passed: 40, failed: 10 }, 100, 0.95)).toEqual({ worst: 'fails', best: 'fails' });
		expect(decisionsAhead({ passed: 41, failed: 9 }, 100, 0.95)).toEqual({ worst: 'fails', best: 'undecided' });
		expect(decisionsAhead({ passed: 50, failed: 0 }, 100, 0.95)).toEqual({ worst: 'fails', best: 'holds' });
		expect(() => decisionsAhead({ passed: 50, failed: 1 }, 50, 0.95)).toThrow('units ahead');
	});
});

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

it('a lower limit that just reaches the required share holds, an upper one that just reaches it leaves it open', () => {
	expect(decide({ low: 0.95, high: 1 }, 0.95)).toBe('holds');
	expect(decide({ low: 0.9, high: 0.95 }, 0.95)).toBe('undecided');
	expect(decide({ low: 0.9, high: 0.949 }, 0.95)).toBe('fails');
});
