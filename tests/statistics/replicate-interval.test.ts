import { describe, expect, it, test } from 'vitest';
import { inverseNormal } from '../../shared/maths/inverse-normal.ts';
import { type Draws, unitUniforms } from '../../shared/sampling/draws.ts';
import { stream } from '../../shared/sampling/stream.ts';
import type { Interval } from '../../shared/statistics/interval.ts';
import {
	replicateInterval,
	replicateQuantile,
	replicateShare,
	replicateShareDifference,
} from '../../shared/statistics/replicate-interval.ts';

describe('intervals over replicates', () => {
	it("Student's interval of 10 replicates: mean 10, s 2, t₉ 2.262157 (published table of t) gives 10 ± 1.43071", () => {
		// ±2·√(9/10) five times each way: squares add up to 9 · 2²
		const spread = 2 * Math.sqrt(0.9);
		const values = Array.from({ length: 10 }, (_, i) => 10 + (i % 2 === 0 ? spread : -spread));
		const { estimate, interval } = replicateInterval(values, 0.95);
		expect(estimate).toBeCloseTo(10, 12);
		expect((interval?.high ?? 0) - 10).toBeCloseTo((2.262157 * 2) / Math.sqrt(10), 5);
		expect(10 - (interval?.low ?? 0)).toBeCloseTo((2.262157 * 2) / Math.sqrt(10), 5);
	});

	it('says nothing of one replicate, of none, of equal ones and of infinite ones', () => {
		for (const values of [[], [3], [2, 2, 2], [1, Infinity]]) {
			expect(replicateInterval(values, 0.95).interval).toBeNull();
		}
		expect(replicateInterval([1, Infinity], 0.95).estimate).toBe(Infinity);
		expect(() => replicateInterval([1, 2], 1)).toThrow(RangeError);
	});

	it('a share has no interval where fewer than 10 units lie on either side, and none beyond 0 and 1', () => {
		expect(replicateShare([0, 0, 0, 0], 64, 0.95)).toEqual({ estimate: 0, interval: null });
		expect(replicateShare([1, 2, 3, 3], 64, 0.95).interval).toBeNull();
		expect(replicateShare([63, 62, 61, 61], 64, 0.95).interval).toBeNull();
		expect(replicateShare([1, 2, 3, 4], 64, 0.95).interval).not.toBeNull();
		expect(replicateShare([64, 64, 64, 44], 64, 0.95).interval?.high).toBe(1);
	});

	it('a difference of shares has no interval where it comes to fewer than 10 units, counted either way', () => {
		// 5 of 32 units pass with one choice alone: the exact sign test has p = 2/2⁵ = 0.06, Student's interval leaves out 0
		const few = [1, 0, 1, 0, 1, 0, 0, 1, 0, 0, 1, 0, 0, 0, 0, 0];
		expect(replicateShareDifference(few, 2, 0.95)).toEqual({ estimate: 5 / 32, interval: null });
		expect(replicateInterval(few, 0.95).interval?.low).toBeGreaterThan(0);
		const more = [3, -1, 2, 0, 2, 1, 0, 2];
		expect(replicateShareDifference(more, 10, 0.95)).toEqual(
			replicateInterval(
				more.map((each) => each / 10),
				0.95,
			),
		);
	});

	it('a quantile with lost units is finite as long as they lie beyond its upper limit, else not bounded', () => {
		const replicate = (shift: number, lost: number): Float64Array =>
			Float64Array.from({ length: 100 }, (_, i) => (i < lost ? Infinity : i + shift));
		const few = replicateQuantile([replicate(0, 1), replicate(3, 0), replicate(-2, 1), replicate(1, 0)], 0.5, 0.95);
		expect(few.estimate).toBeGreaterThan(45);
		expect(Number.isFinite(few.interval?.high)).toBe(true);
		const many = replicateQuantile([replicate(0, 60), replicate(0.5, 61), replicate(0.2, 60)], 0.5, 0.95);
		expect(many).toEqual({ estimate: Infinity, interval: null });
	});
});

/**
 * 2,000 studies of 16 replicates of 32 units each, of a sum of three standard normal parts and one that no replicate
 * stratifies: its mean, its share below the 90 %, 95 % and 97 % points and its 95 % quantile are known in closed form.
 */
const studies = 2000;
const replicates = 16;
const units = 32;
const deviation = Math.sqrt(3.5);

function countHeld(kind: Draws['kind']) {
	const names = ['mean', '95 % quantile', 'share 0.9', 'share 0.95', 'share 0.97'] as const;
	const held = Object.fromEntries(names.map((name) => [name, { held: 0, made: 0 }])) as Record<
		(typeof names)[number],
		{ held: number; made: number }
	>;
	const draws: Draws = kind === 'latin' ? { kind, units } : { kind };
	for (let study = 0; study < studies; study++) {
		const values = Array.from({ length: replicates }, (_, replicate) => {
			const seed = `coverage ${study} ${replicate}`;
			const noise = stream(seed, 'noise');
			return Float64Array.from({ length: units }, (_, unit) => {
				let sum = inverseNormal(Math.max(noise.double(), 1e-12)) * Math.SQRT1_2;
				for (const u of unitUniforms(seed, unit, 3, draws)) sum += inverseNormal(Math.max(u, 1e-12));
				return sum;
			});
		});
		const note = (name: (typeof names)[number], interval: Interval | null, truth: number): void => {
			if (interval === null) return;
			held[name].made += 1;
			if (interval.low <= truth && truth <= interval.high) held[name].held += 1;
		};
		const means = values.map((each) => each.reduce((sum, value) => sum + value, 0) / units);
		note('mean', replicateInterval(means, 0.95).interval, 0);
		note('95 % quantile', replicateQuantile(values, 0.95, 0.95).interval, deviation * inverseNormal(0.95));
		for (const share of [0.9, 0.95, 0.97] as const) {
			const limit = deviation * inverseNormal(share);
			const counts = values.map((each) => each.filter((value) => value <= limit).length);
			note(`share ${share}`, replicateShare(counts, units, 0.95).interval, share);
		}
	}
	return held;
}

// four standard errors of 95 % over 2,000 studies are 1.9 %; the quantile's limits are read off a step function
describe.each(['latin', 'sobol'] as const)('over 2,000 studies on %s draws', (kind) => {
	const held = countHeld(kind);
	test.each(['mean', '95 % quantile', 'share 0.9', 'share 0.95', 'share 0.97'] as const)(
		'the 95 % interval of the %s holds the truth in 93 % to 97 %',
		(name) => {
			const { held: right, made } = held[name];
			expect(made).toBeGreaterThan(studies / 3);
			expect(right / made).toBeGreaterThan(0.93);
			expect(right / made).toBeLessThan(0.975);
		},
	);
});
