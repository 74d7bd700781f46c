import { expect, test } from 'vitest';
import { angleBin, angleBins } from '../../shared/study/angle-histogram.ts';
import { pooledQuantile } from '../../shared/study/pooled-quantile.ts';

/** A hundred errors in their bins. */
function pooled(errors: readonly (readonly [error: number, count: number])[], lowest: number, highest: number) {
	const counts = new Float64Array(angleBins.count);
	for (const [error, count] of errors) counts[angleBin(error)] = count;
	return { counts, total: 100, lowest, highest };
}

test('errors beyond ±60° are taken as spread evenly up to the extremes: half of 4 from −100° lie below −79.995°', () => {
	const both = pooled(
		[
			[-80, 4],
			[1.005, 92],
			[80, 4],
		],
		-100,
		100,
	);
	// half way from −100° to the first bin's upper edge, −59.99°, and likewise above
	expect(pooledQuantile(both, 0.02)).toBeCloseTo((-100 - 59.99) / 2, 9);
	expect(pooledQuantile(both, 0.98)).toBeCloseTo((100 + 59.99) / 2, 9);
	expect(pooledQuantile(both, 0.5)).toBeCloseTo(1.005, 9);
	expect(pooledQuantile(both, 1)).toBe(100);
});

test('no quantile lies beyond the extremes, also where all errors are beyond 60° or in one bin', () => {
	expect(pooledQuantile(pooled([[-80, 100]], -100, -70), 1)).toBe(-70);
	expect(pooledQuantile(pooled([[80, 100]], 70, 100), 0.0001)).toBeCloseTo(70, 2);
	const narrow = pooled([[1.005, 100]], 1.004, 1.006);
	expect(pooledQuantile(narrow, 0.005)).toBe(1.004);
	expect(pooledQuantile(narrow, 0.995)).toBe(1.006);
	expect(pooledQuantile({ ...narrow, total: 0 }, 0.5)).toBeNaN();
});
