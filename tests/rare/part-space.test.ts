import { describe, expect, it } from 'vitest';
import { partSpace } from '../../shared/rare/part-space.ts';
import { essential, solderedParts } from '../../shared/rare/soldered-parts.ts';
import { partSlots } from '../../shared/sampling/draw-parts.ts';
import { fewParts } from './drive-space.ts';

const scenario = fewParts();
const space = partSpace(scenario);
const at = (id: string, source: 'lot' | number): number =>
	space.slots.findIndex((slot) => partSlots[slot]?.id === id && partSlots[slot]?.source === source);

describe('the part space', () => {
	it('has a coordinate for each of the 15 parts that vary, and none for what cannot make a difference', () => {
		expect(space.slots).toHaveLength(15);
		// ringing is off and the board is at 25 °C
		for (const id of ['ringPhase', 'noise.ringCoupling', 'sensing.resistorCoefficient', 'motor.flatTop']) {
			expect(at(id, 0)).toBe(-1);
		}
		const ringing = partSpace(fewParts({ noise: { ringAmplitude: '1 V' } }));
		expect(ringing.slots).toHaveLength(17); // the ring's phase, and the coupling's lot
	});

	it('has the nominal drive at its origin', () => {
		const deviations = space.deviations(new Float64Array(15));
		for (const value of Object.values(deviations).flat()) expect([0, 0.5]).toContain(value); // 0.5: the ring's phase
	});

	it('turns +1 σ into 68.27 % of a uniform 1 % tolerance, and far out into its limit', () => {
		const top = at('sensing.divider.top', 2);
		const point = new Float64Array(15);
		point[top] = 1;
		// 2Φ(1) − 1 = 0.6826895 (tables)
		expect((space.deviations(point)['sensing.divider.top'] as number[])[2]).toBeCloseTo(0.006826895, 9);
		point[top] = 12;
		expect((space.deviations(point)['sensing.divider.top'] as number[])[2]).toBeCloseTo(0.01, 12);
		point[top] = -40;
		expect((space.deviations(point)['sensing.divider.top'] as number[])[2]).toBeCloseTo(-0.01, 12);
	});

	it('refuses a point of another space', () => {
		expect(() => space.deviations(new Float64Array(3))).toThrow(RangeError);
	});
});

describe('parts to solder', () => {
	const point = new Float64Array(15);
	point[at('sensing.divider.top', 0)] = 2;
	point[at('sensing.halfBus.bottom', 0)] = -1;
	point[at('motor.placement', 1)] = 0.1;

	it('are named with value, deviation and share: 22 kΩ at +2 σ is 22.21 kΩ, 4/5 of the distance squared', () => {
		const [first, second, third] = solderedParts(scenario, space, point);
		// 2Φ(2) − 1 = 0.9544997
		expect(first).toMatchObject({ id: 'sensing.divider.top', instance: 0, unit: 'Ω', nominal: 22e3, isRelative: true });
		expect(first?.value).toBeCloseTo(22e3 * 1.009544997, 2);
		expect(first?.share).toBeCloseTo(4 / 5.01, 12);
		expect(second).toMatchObject({ id: 'sensing.halfBus.bottom', instance: 0 });
		expect(second?.deviation).toBeCloseTo(-0.006826895, 9);
		expect(third).toMatchObject({ id: 'motor.placement', instance: 1, unit: '°', isRelative: false });
	});

	it('keep what makes 95 % of the distance squared; the rest returns to the middle', () => {
		const kept = essential(point);
		expect(solderedParts(scenario, space, kept).map(({ id }) => id)).toEqual([
			'sensing.divider.top',
			'sensing.halfBus.bottom',
		]);
		expect(essential(point, 1)).toEqual(point);
	});
});
