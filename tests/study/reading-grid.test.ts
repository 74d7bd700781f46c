import { expect, test } from 'vitest';
import { defaultValues } from '../../shared/scenario/default-values.ts';
import { readingGridSpread } from '../../shared/study/reading-grid.ts';

const values = defaultValues();

test('one reading per 50 µs at 200 electrical turns a second is 3.6°, which spreads by 3.6°/√12 = 1.039°', () => {
	expect(readingGridSpread(values)).toBeCloseTo(3.6 / Math.sqrt(12), 12);
});

test('ten readings over the whole period spread a tenth of that', () => {
	const whole = { ...values, 'detection.window': 'whole', 'detection.samples': 10 };
	expect(readingGridSpread(whole)).toBeCloseTo(0.36 / Math.sqrt(12), 12);
});

test('two readings in a short on-window hardly beat one', () => {
	const slow = { ...values, 'operation.speed': 300, 'operation.torque': 0.001 };
	const two = readingGridSpread({ ...slow, 'detection.samples': 2 });
	expect(two).toBeLessThan(readingGridSpread(slow));
	expect(two).toBeGreaterThan(0.8 * readingGridSpread(slow));
});
