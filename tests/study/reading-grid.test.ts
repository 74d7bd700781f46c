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

test('the off-window is what the on-window leaves: at next to no duty two readings in it spread as over the whole period', () => {
	const slow = { ...values, 'operation.speed': 300, 'operation.torque': 0.001, 'detection.samples': 2 };
	const off = readingGridSpread({ ...slow, 'detection.window': 'off' });
	const whole = readingGridSpread({ ...slow, 'detection.window': 'whole' });
	expect(off / whole).toBeGreaterThan(1);
	expect(off / whole).toBeLessThan(1.1);
});
