import { expect, test } from 'vitest';
import { stream } from '../../shared/sampling/stream.ts';
import { fixedSequence } from '../../shared/statistics/fixed-sequence.ts';
import { verdict } from '../../shared/statistics/verdict.ts';

const holds = (decision: string): boolean => decision === 'holds';

test('judging ends with the first claim that is not shown: holds, undecided, then two that are not judged', () => {
	expect(fixedSequence(['holds', 'undecided', 'holds', 'fails'], holds)).toEqual(['holds', 'undecided', null, null]);
	expect(fixedSequence(['fails', 'holds'], holds)).toEqual(['fails', null]);
	expect(fixedSequence(['holds', 'holds'], holds)).toEqual(['holds', 'holds']);
	expect(fixedSequence([], holds)).toEqual([]);
});

test('five claims on the limit of 90 % by independent drives: 4.7 % show any, where judging each alone shows some in 21 %', () => {
	// 29 drives of which none may fail (success run, published); 20,000 experiments: standard errors 0.0015 and 0.0029
	const next = stream('fixed-sequence', 'drives');
	const experiments = 20_000;
	let inSequence = 0;
	let alone = 0;
	const decisions = Array.from({ length: 30 }, (_, passed) => verdict({ passed, failed: 29 - passed }, 0.9).decision);
	const exact = decisions.reduce(
		(sum, decision, passed) => sum + (decision === 'holds' ? binomial(29, passed, 0.9) : 0),
		0,
	);
	for (let i = 0; i < experiments; i += 1) {
		const seen = Array.from({ length: 5 }, () => {
			let passed = 0;
			for (let drive = 0; drive < 29; drive += 1) if (next.double() < 0.9) passed += 1;
			return decisions[passed] as string;
		});
		if (seen.some(holds)) alone += 1;
		if (fixedSequence(seen, holds).some((one) => one !== null && holds(one))) inSequence += 1;
	}
	expect(exact).toBeCloseTo(0.9 ** 29, 12);
	expect(Math.abs(inSequence / experiments - exact)).toBeLessThan(0.006);
	// 1 − (1 − exact)⁵: what a search through all would do
	expect(Math.abs(alone / experiments - (1 - (1 - exact) ** 5))).toBeLessThan(0.012);
	expect(alone / experiments).toBeGreaterThan(0.05);
});

/** P(X = x) for n trials, by products so that nothing overflows. */
function binomial(n: number, x: number, p: number): number {
	let chance = 1;
	for (let i = 1; i <= x; i += 1) chance *= ((n - x + i) / i) * p;
	return chance * (1 - p) ** (n - x);
}
