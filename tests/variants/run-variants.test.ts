import { expect, test } from 'vitest';
import { countNames, measureNames } from '../../shared/study/columns.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { runVariants, variantStretches } from '../../shared/variants/run-variants.ts';
import { smallScenario } from '../study/small-scenario.ts';

const scenario = smallScenario();
const plan = { scenario, seed: 'variants', compensation: { halfBus: 40e-6, virtualNeutral: 40e-6 } };

test('indices 5 up to 16 of 3 variants are each unit and variant once, and neighbouring ranges fit together', () => {
	const held = (from: number, to: number) =>
		variantStretches(3, from, to).flatMap(({ variant, first, end }) =>
			Array.from({ length: end - first }, (_, i) => 3 * (first + i) + variant),
		);
	expect(held(5, 16).sort((a, b) => a - b)).toEqual([5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15]);
	expect(variantStretches(3, 4, 5)).toEqual([{ variant: 1, first: 1, end: 2 }]);
	expect(variantStretches(3, 4, 4)).toEqual([]);
});

test('a point lifted out of a scenario by its key has the digits it has there', () => {
	const point = scenario.points[1];
	if (point === undefined) throw new Error('two points are needed');
	const variants = [{ points: [point], pointKeys: [1] }, {}];
	const { parts } = runVariants({ plan, variants }, 0, 8);
	const whole = runShard(plan, 0, 4).columns;
	const lifted = parts.find(({ variant }) => variant === 0)?.shard.columns;
	const same = parts.find(({ variant }) => variant === 1)?.shard.columns;
	for (const name of [...countNames, ...measureNames]) {
		expect(same?.[name], name).toEqual(whole[name]);
		for (let unit = 0; unit < 4; unit += 1) {
			expect(lifted?.[name].slice(2 * unit, 2 * unit + 2), name).toEqual(whole[name].slice(4 * unit + 2, 4 * unit + 4));
		}
	}
});

test('firmware that commutates 2° ahead moves the mean angle error by −2°, for the choice it is told to alone', () => {
	const trimmed = { advanceTrim: { halfBus: 2, virtualNeutral: 0 } };
	const { parts } = runVariants({ plan, variants: [{}, trimmed] }, 0, 40);
	const means = parts.map(({ shard: { columns } }) =>
		[0, 1].map((choice) => {
			let errors = 0;
			let sectors = 0;
			for (let cell = choice; cell < columns.sectors.length; cell += 2) {
				errors += columns.errorSum[cell] as number;
				sectors += columns.sectors[cell] as number;
			}
			return errors / sectors;
		}),
	);
	// one reading a PWM period is worth up to 10° here, and 480 commutations average it down to 0.2°
	expect((means[1]?.[0] ?? 0) - (means[0]?.[0] ?? 0)).toBeCloseTo(-2, 0);
	expect(means[1]?.[1]).toBe(means[0]?.[1]);
});
