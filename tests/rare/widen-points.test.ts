import { expect, test } from 'vitest';
import { type FailingDraw, type Trial, widenPoints } from '../../shared/rare/widen-points.ts';

/** Fails beyond 2 along the first axis, and beyond 3 along the second. */
const fails = (point: Float64Array): boolean => (point[0] as number) > 2 || (point[1] as number) > 3;

const along = (weight: number, ...point: number[]): FailingDraw => ({ point: Float64Array.from(point), weight });

function widened(draws: readonly FailingDraw[], known: Parameters<typeof widenPoints>[0] = []) {
	const search = widenPoints(known, draws);
	const tried: Trial[] = [];
	let step = search.next();
	while (!step.done) {
		tried.push(...step.value);
		step = search.next(step.value.map(({ point }) => fails(point)));
	}
	return { points: step.value, tried };
}

test('a failing draw leads to the point on its own axis where it just fails; what it does not need is put back', () => {
	const { points, tried } = widened([along(1, 2.5, 0.7, -0.4)]);
	expect(points).toHaveLength(1);
	expect([...(points[0]?.point ?? [])].slice(1)).toEqual([0, 0]);
	// after seven halvings of 2.5
	expect(points[0]?.distance).toBeGreaterThanOrEqual(2);
	expect(points[0]?.distance).toBeLessThanOrEqual(2 + 2.5 / 128);
	expect(new Set(tried.map(({ draw }) => draw))).toEqual(new Set([0]));
});

test('of many draws the heaviest eight are followed, wherever they stand', () => {
	const light = Array.from({ length: 8 }, (_, i) => along(1 + i, 2.5, 0.1, 0));
	const heavy = along(100, 0.2, 3.5, 0);
	const first = widened([heavy, ...light]);
	const last = widened([...light, heavy]);
	for (const { points } of [first, last]) {
		expect(points.map(({ point }) => point.findIndex((x) => x > 0)).sort()).toEqual([0, 1]);
	}
	// the lightest is left out: number 1 behind the heavy one, number 0 before it
	expect(new Set(first.tried.map(({ draw }) => draw))).toEqual(new Set([0, 2, 3, 4, 5, 6, 7, 8]));
	expect(new Set(last.tried.map(({ draw }) => draw))).toEqual(new Set([1, 2, 3, 4, 5, 6, 7, 8]));
	// too light to be followed, its axis is not found
	expect(widened([...light, along(0.5, 0.2, 3.5, 0)]).points).toHaveLength(1);
});

test('a point that is known already is not added again', () => {
	const known = { point: Float64Array.of(2.1, 0.3, 0), distance: 2.12, figure: 0 };
	expect(widened([along(1, 2.5, 0.1, 0)], [known]).points).toEqual([known]);
});
