import { expect, test } from 'vitest';
import { cornersOf, cornerValues, fewestCorners, neighbours, rangedConditions } from '../../shared/envelope/corners.ts';
import type { OperatingPoint } from '../../shared/scenario/scenario.ts';
import { smallScenario } from '../study/small-scenario.ts';

const wide = smallScenario({
	points: [
		{
			name: 'all',
			speed: { value: 6000, range: '2 %' },
			torque: { value: 0.05, range: '10 %' },
			voltage: { value: 48, range: '5 %' },
			rippleAmplitude: { value: 1, range: '20 %' },
			rippleFrequency: { value: 100, range: '10 %' },
			boardTemperature: { value: 20, range: 60, scale: 'absolute' },
			motorTemperature: { value: 20, range: 60, scale: 'absolute' },
		},
		{
			name: 'exact',
			speed: { value: 6000, range: 0 },
			torque: 0.05,
			voltage: { value: 48, range: 0 },
			rippleAmplitude: 0,
		},
	],
});

test('seven ranges at one point and none at the other make 2⁷ + 1 combinations, each once', () => {
	const { corners, possible } = cornersOf(wide, 512);
	expect(possible).toBe(129);
	expect(new Set(corners.map((corner) => JSON.stringify(corner))).size).toBe(129);
	expect(rangedConditions(wide.points[0] as OperatingPoint)).toHaveLength(7);
	// a ripple of 0 V ± 20 % has one limit
	expect(rangedConditions(wide.points[1] as OperatingPoint)).toEqual([]);
	// 0 °C ± 20 °C has two
	const { points } = smallScenario({
		points: [
			{
				name: 'cold',
				speed: { value: 6000, range: 0 },
				torque: 0.05,
				voltage: { value: 48, range: 0 },
				boardTemperature: { value: 0, range: 20, scale: 'absolute' },
			},
		],
	});
	expect(rangedConditions(points[0] as OperatingPoint)).toContain('operation.boardTemperature');
});

test('with room for 40, 32 of the 128 stay, and no room below 8 + 1', () => {
	const { corners, possible } = cornersOf(wide, 40);
	expect({ count: corners.length, possible }).toEqual({ count: 33, possible: 129 });
	expect(fewestCorners(wide)).toBe(9);
});

test('limits are the stated ends: 5880 and 6120 rpm, −40 and 80 °C', () => {
	const point = wide.points[0] as OperatingPoint;
	const ends = (limit: 'low' | 'high') =>
		cornerValues(point, {
			point: 0,
			limits: Object.fromEntries(rangedConditions(point).map((id) => [id, limit])),
		});
	expect(ends('low')).toMatchObject({ 'operation.speed': 5880, 'operation.boardTemperature': -40 });
	expect(ends('high')).toMatchObject({ 'operation.speed': 6120, 'operation.motorTemperature': 80 });
});

test('a corner of seven limits has seven neighbours, each one limit away', () => {
	const [corner] = cornersOf(wide, 512).corners;
	if (corner === undefined) throw new Error('a corner is needed');
	for (const near of neighbours(corner)) {
		const changed = Object.keys(corner.limits).filter((id) => corner.limits[id] !== near.limits[id]);
		expect(changed).toHaveLength(1);
	}
	expect(neighbours(corner)).toHaveLength(7);
});
