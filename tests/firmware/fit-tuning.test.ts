import { expect, test } from 'vitest';
import { fitTuning } from '../../shared/firmware/fit-tuning.ts';

const limits = { mostCompensation: 0.1, leastTrim: -30, mostTrim: 30 };
const present = { compensation: 50e-6, advanceTrim: 0.5 };
const point = (speed: number, mean: number, weight = 1) => ({ speed, mean, weight });

test('a mean error of 1.5° + 20 µs at three speeds is taken out exactly: 70 µs and 2° of trim', () => {
	const points = [21_600, 48_000, 72_000].map((speed, i) => point(speed, 1.5 + 20e-6 * speed, i + 1));
	const { compensation, advanceTrim } = fitTuning(points, present, limits);
	expect(compensation).toBeCloseTo(70e-6, 12);
	expect(advanceTrim).toBeCloseTo(2, 9);
});

test('one speed is served by the delay alone: 0.72° at 72 000°/s is 10 µs', () => {
	const both = [point(72_000, 0.72), point(72_000, 0.72, 3)];
	expect(fitTuning([point(72_000, 0.72)], present, limits)).toEqual(fitTuning(both, present, limits));
	const { compensation, advanceTrim } = fitTuning(both, present, limits);
	expect(compensation).toBeCloseTo(60e-6, 12);
	expect(advanceTrim).toBe(0.5);
});

test('what a line cannot follow stays, with weighted mean 0', () => {
	const points = [point(20_000, 1, 0.2), point(40_000, 0, 0.5), point(70_000, 2, 0.3)];
	const { compensation, advanceTrim } = fitTuning(points, present, limits);
	const left = points.map(
		({ speed, mean }) => mean - speed * (compensation - present.compensation) - (advanceTrim - present.advanceTrim),
	);
	expect(points.reduce((sum, { weight }, i) => sum + weight * (left[i] ?? 0), 0)).toBeCloseTo(0, 9);
	expect(Math.max(...left.map(Math.abs))).toBeGreaterThan(0.1);
});

test('a delay that would have to be negative stays at 0 and the trim nulls the weighted mean', () => {
	const points = [point(20_000, 3), point(60_000, -3)];
	const { compensation, advanceTrim } = fitTuning(points, present, limits);
	expect(compensation).toBe(0);
	// 50 µs less at 40 000°/s on the mean: 2° later, which the trim makes up for
	expect(advanceTrim).toBeCloseTo(2.5, 9);
});

test('a trim beyond the range of the advance stays at its end and the delay nulls the mean', () => {
	const points = [point(20_000, 8), point(60_000, 8)];
	const narrow = { ...limits, mostTrim: 2.5 };
	const { compensation, advanceTrim } = fitTuning(points, present, narrow);
	expect(advanceTrim).toBe(2.5);
	// 8° less 2° at 40 000°/s
	expect(compensation).toBeCloseTo(50e-6 + 6 / 40_000, 12);
});

test('at one speed a delay that is used up leaves the rest to the trim, of the same sign as the error', () => {
	// 50 µs less at 72 000°/s take out −3.6° of −5°
	const { compensation, advanceTrim } = fitTuning([point(72_000, -5)], present, limits);
	expect(compensation).toBe(0);
	expect(advanceTrim).toBeCloseTo(0.5 - 1.4, 9);
});
