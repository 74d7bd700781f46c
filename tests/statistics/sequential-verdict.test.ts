import { describe, expect, test } from 'vitest';
import { binomialConfidenceSequence } from '../../shared/statistics/binomial-confidence-sequence.ts';
import { sequentialVerdict } from '../../shared/statistics/sequential-verdict.ts';
import { verdict } from '../../shared/statistics/verdict.ts';
import { looks } from '../../shared/study/looks.ts';

/**
 * Exact probability of ever deciding, unit by unit: the distribution of the
 * number of failing units among those studies that have not yet stopped.
 */
function everDecides(
	trueShare: number,
	decide: (failed: number, units: number) => 'holds' | 'fails' | 'undecided',
	[ceiling, atLooks]: readonly [number, readonly number[]],
): { holds: number; fails: number } {
	let open = Float64Array.of(1);
	const decided = { holds: 0, fails: 0 };
	const isLook = new Set(atLooks);
	for (let units = 1; units <= ceiling; units++) {
		const next = new Float64Array(units + 1);
		for (let failed = 0; failed < units; failed++) {
			const weight = open[failed] as number;
			next[failed] = (next[failed] as number) + weight * trueShare;
			next[failed + 1] = (next[failed + 1] as number) + weight * (1 - trueShare);
		}
		if (isLook.has(units)) {
			for (let failed = 0; failed <= units; failed++) {
				const weight = next[failed] as number;
				if (weight < 1e-14) continue;
				const decision = decide(failed, units);
				if (decision === 'undecided') continue;
				decided[decision] += weight;
				next[failed] = 0;
			}
		}
		open = next;
	}
	return decided;
}

const ceiling = 3000;
const scheduled = looks(ceiling);

describe.each([0.9, 0.95, 0.99])('with the true share on the limit of %d', (share) => {
	test(`a study that looks ${scheduled.length} times in ${ceiling} units decides wrongly with at most 5 % (exact summation)`, () => {
		const sequential = everDecides(
			share,
			(failed, units) => sequentialVerdict({ passed: units - failed, failed }, share).decision,
			[ceiling, scheduled],
		);
		expect(sequential.holds + sequential.fails).toBeLessThan(0.05);
		expect(sequential.holds + sequential.fails).toBeGreaterThan(0.001);
	});

	test('limits made for a fixed number would decide wrongly in more than 15 %', () => {
		const repeated = everDecides(
			share,
			(failed, units) => verdict({ passed: units - failed, failed }, share).decision,
			[ceiling, scheduled],
		);
		expect(repeated.holds + repeated.fails).toBeGreaterThan(0.15);
	});
});

test('well above the limit it holds, well below it fails, in 97 of 100 studies of at most 3000 units', () => {
	const decide = (failed: number, units: number) =>
		sequentialVerdict({ passed: units - failed, failed }, 0.95).decision;
	expect(everDecides(0.98, decide, [ceiling, scheduled]).holds).toBeGreaterThan(0.97);
	expect(everDecides(0.9, decide, [ceiling, scheduled]).fails).toBeGreaterThan(0.97);
});

test('without a failure a share of 99 % holds after 410 units, a fixed run after 299', () => {
	// 299: success run, check value of C = 0.95, R = 0.99; 410: smallest n with Π (a + k)/(a + ½ + k) ≥ 20 · 0.99ⁿ, a = 49.5, recomputed apart
	const after = (units: number) => sequentialVerdict({ passed: units, failed: 0 }, 0.99).decision;
	expect([after(409), after(410)]).toEqual(['undecided', 'holds']);
	expect(verdict({ passed: 299, failed: 0 }, 0.99).decision).toBe('holds');
});

test('units that could not be simulated count against either decision', () => {
	expect(sequentialVerdict({ passed: 500, failed: 0, notSimulated: 30 }, 0.95).decision).toBe('undecided');
	expect(sequentialVerdict({ passed: 100, failed: 50, notSimulated: 150 }, 0.6).decision).toBe('undecided');
	expect(sequentialVerdict({ passed: 100, failed: 200 }, 0.6).decision).toBe('fails');
});

test('the number proposed decides at the share seen, nine tenths of it do not', () => {
	const { decision, moreUnits } = sequentialVerdict({ passed: 387, failed: 13 }, 0.95);
	expect(decision).toBe('undecided');
	const at = (more: number) => {
		const units = 400 + more;
		const passed = Math.round((387 / 400) * units);
		return sequentialVerdict({ passed, failed: units - passed }, 0.95).decision;
	};
	expect(at(moreUnits ?? 0)).toBe('holds');
	expect(at(Math.floor(0.9 * (moreUnits ?? 0)))).toBe('undecided');
});

test('its limits are those of the confidence sequence with mean on the required share', () => {
	const { low, high } = sequentialVerdict({ passed: 190, failed: 10 }, 0.9);
	const { low: lower, high: upper } = binomialConfidenceSequence(190, 200, 0.95, [4.5, 0.5]);
	expect(low).toBeCloseTo(lower, 12);
	expect(high).toBeCloseTo(upper, 12);
});

test('without units nothing is decided', () => {
	expect(sequentialVerdict({ passed: 0, failed: 0 }, 0.95)).toMatchObject({ decision: 'undecided', low: 0, high: 1 });
});
