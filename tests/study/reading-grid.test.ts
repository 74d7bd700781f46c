import { expect, test } from 'vitest';
import { defaultValues } from '../../shared/scenario/default-values.ts';
import { nominalFigures } from '../../shared/scenario/nominal-figures.ts';
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

test.each(['on', 'off', 'whole'] as const)(
	'three readings in the %s-window spread as 30,000 crossings do that wait for the next one',
	(window) => {
		const asked = { ...values, 'operation.speed': 1200, 'detection.window': window, 'detection.samples': 3 };
		const { duty, period, degreesPerSecond } = nominalFigures(asked);
		expect(duty).toBeGreaterThan(0.1);
		expect(duty).toBeLessThan(0.45);
		const [start, length] = { on: [0, duty], off: [duty, 1 - duty], whole: [0, 1] }[window] as [number, number];
		const readings = [0, 1, 2, 3].map((k) => (k < 3 ? start + (k * length) / 3 : start + 1));
		const waits = Array.from({ length: 30_000 }, (_, i) => {
			const crossing = (i + 0.5) / 30_000;
			return (readings.find((at) => at >= crossing) ?? (readings[0] as number) + 1) - crossing;
		});
		const mean = waits.reduce((sum, wait) => sum + wait, 0) / waits.length;
		const sd = Math.sqrt(waits.reduce((sum, wait) => sum + (wait - mean) ** 2, 0) / waits.length);
		expect(readingGridSpread(asked) / (sd * period * degreesPerSecond)).toBeCloseTo(1, 4);
	},
);
