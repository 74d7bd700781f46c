import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { NumberRecord } from '../../shared/parameters/parameter.ts';
import { parameter, parameters } from '../../shared/parameters/parameters.ts';
import { parseQuantity } from '../../shared/parameters/quantity.ts';
import { canRange, readAxis } from '../../shared/range/read-axis.ts';
import { usualAxis } from '../../shared/range/usual-axis.ts';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import { smallScenario } from '../study/small-scenario.ts';

const demos = readdirSync(new URL('../../scenarios/', import.meta.url)).filter((name) =>
	/(?<!schema)\.json$/.test(name),
);
const numeric = parameters.filter(canRange);

describe.each(demos)('of %s', (name) => {
	const reading = readScenario(readFileSync(new URL(`../../scenarios/${name}`, import.meta.url), 'utf8'));
	if (!('scenario' in reading)) throw new Error(`${name} has problems`);
	const { scenario } = reading;

	test.each(numeric.map((record) => [record.id, record] as const))(
		'the usual axis of %s reads back as 2 to 9 values within its limits',
		(id, record) => {
			const { from, to, steps, isLogarithmic } = usualAxis(record, scenario);
			const axis = readAxis(`${id}=${from}..${to}/${steps}${isLogarithmic ? ' log' : ''}`);
			expect(axis).not.toHaveProperty('problems');
			if (!('axis' in axis)) return;
			expect(axis.axis.values.length).toBeGreaterThanOrEqual(2);
			expect(axis.axis.values.length).toBeLessThanOrEqual(9);
		},
	);

	test('the usual speeds reach from 0.6 of the slowest point to 1.2 of the fastest', () => {
		const { from, to } = usualAxis(parameter('operation.speed') as NumberRecord, scenario);
		const speed = (written: string): unknown => Object.values(parseQuantity(written, 'rpm'))[0];
		const speeds = scenario.points.map(({ values }) => values['operation.speed'] as number);
		expect(speed(from)).toBeCloseTo(Number((0.6 * Math.min(...speeds)).toPrecision(2)), 9);
		expect(speed(to)).toBeCloseTo(Number((1.2 * Math.max(...speeds)).toPrecision(2)), 9);
	});
});

test('a temperature that is below zero at one point moves evenly about the middle of all points', () => {
	const at = (name: string, boardTemperature: number) => ({ name, speed: 6000, torque: 0.05, boardTemperature });
	const scenario = smallScenario({ points: [at('cold', -20), at('warm', 40)] });
	const { from, to, isLogarithmic } = usualAxis(parameter('operation.boardTemperature') as NumberRecord, scenario);
	expect((Number.parseFloat(from) + Number.parseFloat(to)) / 2).toBeCloseTo(10, 9);
	expect(Number.parseFloat(from)).toBeLessThan(-20);
	expect(isLogarithmic).toBe(false);
});

test('a part is halved and doubled in equal ratios, an offset of nothing moves by 3 times its lot and mismatch', () => {
	const scenario = smallScenario({ sensing: { comparator: { offset: { value: 0, lot: '1 mV', mismatch: '4 mV' } } } });
	expect(usualAxis(parameter('sensing.halfBus.top') as NumberRecord, scenario, 5)).toEqual({
		from: '24 kΩ',
		to: '97 kΩ',
		steps: '5',
		isLogarithmic: true,
	});
	expect(usualAxis(parameter('sensing.comparator.offset') as NumberRecord, scenario)).toMatchObject({
		from: '-15 mV',
		to: '15 mV',
		isLogarithmic: false,
	});
});
