import fc from 'fast-check';
import { expect, test } from 'vitest';
import { moved, showing, within, zoomed } from '../../../src/page/model/one-drive/time-view.ts';

const views = fc
	.tuple(fc.double({ min: 0, max: 0.09, noNaN: true }), fc.double({ min: 1e-5, max: 0.1, noNaN: true }))
	.map(([from, span]) => within({ from, to: from + span }, 0.1));

test('whatever is done, the view stays within the run and keeps at least 2 µs', () => {
	fc.assert(
		fc.property(
			views,
			fc.double({ min: 1e-4, max: 1e4, noNaN: true }),
			fc.double({ min: -9, max: 9, noNaN: true }),
			(view, factor, share) => {
				for (const next of [zoomed(view, factor, view.from, 0.1), moved(view, share, 0.1), showing(view, 0.05, 0.1)]) {
					expect(next.from).toBeGreaterThanOrEqual(0);
					expect(next.to).toBeLessThanOrEqual(0.1 + 1e-12);
					expect(next.to - next.from).toBeGreaterThan(1.999e-6);
				}
			},
		),
		{ seed: 7, numRuns: 300 },
	);
});

test('zooming in and out about a time gives the view back', () => {
	const view = { from: 0.02, to: 0.06 };
	const back = zoomed(zoomed(view, 0.25, 0.03, 0.1), 4, 0.03, 0.1);
	expect(back.from).toBeCloseTo(view.from, 12);
	expect(back.to).toBeCloseTo(view.to, 12);
});

test('a time well in view moves nothing, one outside comes to the middle', () => {
	const view = { from: 0.02, to: 0.04 };
	expect(showing(view, 0.03, 0.1)).toBe(view);
	expect(showing(view, 0.07, 0.1)).toEqual({ from: expect.closeTo(0.06, 12), to: expect.closeTo(0.08, 12) });
});
