import { describe, expect, it } from 'vitest';
import { drawStart, startFromUniforms, startSlots, startUniforms } from '../../shared/sampling/draw-start.ts';
import { scenarioOfDefaults } from './first-demo.ts';
import { correlation, criticalDistance, distanceFrom } from './kolmogorov-smirnov.ts';

const scenario = scenarioOfDefaults();
const all = { length: 2000 };

describe('starts of a unit', () => {
	it.each([1, 2, 4, 7, 64])(
		'over %s starts each phase falls into every stratum exactly once, for every unit and point',
		(starts) => {
			const many = scenarioOfDefaults({}, starts);
			const indices = Array.from({ length: starts }, (_, i) => i);
			for (let unit = 0; unit < 20; unit++) {
				for (const point of [0, 1]) {
					const drawn = indices.map((start) => drawStart(many, 'demo', unit, point, start));
					for (const phase of ['pwmPhase', 'ripplePhase'] as const) {
						const strata = drawn.map((start) => Math.floor(start[phase] * starts));
						expect(strata.sort((a, b) => a - b)).toEqual(indices);
					}
				}
			}
		},
	);

	it('one start depends on seed, unit, point and start alone', () => {
		const forward = Array.from({ length: 8 }, (_, i) => drawStart(scenario, 'demo', 3, i >> 2, i & 3));
		const backward = Array.from({ length: 8 }, (_, i) => drawStart(scenario, 'demo', 3, (7 - i) >> 2, (7 - i) & 3));
		expect(forward).toEqual(backward.reverse());
		expect(new Set(forward.map(({ pwmPhase }) => pwmPhase)).size).toBe(8);
	});

	it("giving the torque a range changes no other condition or phase, and more starts change no start's conditions", () => {
		const point = scenario.points[0] as (typeof scenario.points)[number];
		const ranges = { ...point.ranges, 'operation.torque': { scale: 'relative', halfWidth: 0.1 } as const };
		const ranged = { ...scenario, points: [{ ...point, ranges }] };
		const before = drawStart(scenario, 'demo', 9, 0, 2);
		const after = drawStart(ranged, 'demo', 9, 0, 2);
		expect(after.conditions['operation.torque']).not.toBe(before.conditions['operation.torque']);
		expect({ ...after.conditions, 'operation.torque': 0 }).toEqual({ ...before.conditions, 'operation.torque': 0 });
		expect([after.pwmPhase, after.ripplePhase]).toEqual([before.pwmPhase, before.ripplePhase]);
		expect(drawStart(scenarioOfDefaults({}, 8), 'demo', 9, 0, 2).conditions).toEqual(before.conditions);
	});

	it('a condition is uniform in its range, relative or absolute, and exact without one', () => {
		const point = scenario.points[0] as (typeof scenario.points)[number];
		const uniforms = new Float64Array(startSlots.length).fill(0.75);
		const { conditions } = startFromUniforms(
			{
				...point,
				ranges: {
					'operation.speed': { scale: 'relative', halfWidth: 0.02 },
					'supply.voltage': { scale: 'absolute', halfWidth: 2 },
				},
			},
			uniforms,
		);
		expect(conditions['operation.speed']).toBeCloseTo(3000 * 1.01, 9);
		expect(conditions['supply.voltage']).toBe(25);
		expect(conditions['supply.rippleAmplitude']).toBe(0.6);
	});

	it('phases and speeds of 2,000 units are uniform at 1 %, and the two phases uncorrelated (3 standard errors)', () => {
		const starts = Array.from(all, (_, unit) => startUniforms('demo', unit, 0, unit % 4, 4));
		const slot = (index: number): Float64Array => Float64Array.from(starts, (each) => each[index] as number);
		for (const index of [0, 1, 2, 7]) {
			expect(distanceFrom(slot(index), (x) => x)).toBeLessThan(criticalDistance(2000));
		}
		expect(Math.abs(correlation(slot(0), slot(1)))).toBeLessThan(3 / Math.sqrt(2000));
		expect(Math.abs(correlation(slot(0).subarray(1), slot(0).subarray(0, -1)))).toBeLessThan(3 / Math.sqrt(2000));
	});

	it('a start or point that does not exist is refused', () => {
		expect(() => drawStart(scenario, 'demo', 0, 0, 4)).toThrow(RangeError);
		expect(() => drawStart(scenario, 'demo', 0, 2, 0)).toThrow(RangeError);
	});
});
