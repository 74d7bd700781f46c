import { describe, expect, it } from 'vitest';
import type { NumberRecord, Tolerance } from '../../shared/parameters/parameter.ts';
import { parameters } from '../../shared/parameters/parameters.ts';
import { drawParts, partSlots, partsFromUniforms, partUniforms } from '../../shared/sampling/draw-parts.ts';
import { scenarioOfDefaults } from './first-demo.ts';
import { correlation, criticalDistance, distanceFrom } from './kolmogorov-smirnov.ts';

const parts = parameters.filter((record): record is NumberRecord => record.kind !== 'choice' && record.role === 'part');
const scenario = scenarioOfDefaults();
const exact: Tolerance = { scale: 'relative', lot: 0, mismatch: 0, distribution: 'uniform', basis: 'assumed' };

describe('parts of a unit', () => {
	it('every part record has one lot slot and one for each instance, and the ring its phase', () => {
		for (const { id, instances } of parts) {
			const sources = partSlots.filter((slot) => slot.id === id).map((slot) => slot.source);
			expect(sources).toEqual(['lot', ...Array.from({ length: instances }, (_, i) => i)]);
		}
		expect(partSlots.length).toBe(1 + parts.reduce((sum, { instances }) => sum + 1 + instances, 0));
	});

	it('unit 7 is the same drawn first, last or alone', () => {
		const forward = Array.from({ length: 20 }, (_, unit) => drawParts(scenario, 'demo', unit));
		const backward = Array.from({ length: 20 }, (_, i) => drawParts(scenario, 'demo', 19 - i));
		expect(forward[7]).toEqual(backward[12]);
		expect(forward[7]).toEqual(drawParts(scenario, 'demo', 7));
	});

	it.each(parts.map(({ id }) => id))('making %s vary changes no other draw', (id) => {
		const fixed = drawParts(scenarioOfDefaults({ [id]: exact }), 'demo', 3);
		const varying = drawParts(
			scenarioOfDefaults({ [id]: { ...exact, lot: 0.1, mismatch: 0.1, distribution: 'normal' } }),
			'demo',
			3,
		);
		expect(varying[id]).not.toEqual(fixed[id]);
		expect({ ...varying, [id]: 0 }).toEqual({ ...fixed, [id]: 0 });
	});

	it('without mismatch the instances are equal to the last bit, for every distribution but measured', () => {
		for (const distribution of ['uniform', 'normal', 'triangular', 'gapped'] as const) {
			const batch = Object.fromEntries(parts.map(({ id }) => [id, { ...exact, lot: 0.1, distribution, gap: 0.02 }]));
			for (let unit = 0; unit < 50; unit++) {
				for (const value of Object.values(drawParts(scenarioOfDefaults(batch), 'demo', unit))) {
					if (typeof value !== 'number') expect(new Set(value).size).toBe(1);
				}
			}
		}
	});

	it('relative deviations combine as (1 + lot)(1 + mismatch) − 1, absolute ones add', () => {
		const uniforms = partUniforms('demo', 5);
		const at = (id: string, source: 'lot' | number): number =>
			2 * (uniforms[partSlots.findIndex((slot) => slot.id === id && slot.source === source)] as number) - 1;
		const both = (scale: Tolerance['scale']): Tolerance => ({ ...exact, scale, lot: 0.1, mismatch: 0.02 });
		const drawn = partsFromUniforms(
			scenarioOfDefaults({ 'motor.phaseResistance': both('relative'), 'motor.placement': both('absolute') }),
			uniforms,
		);
		for (let phase = 0; phase < 3; phase++) {
			const resistance =
				(1 + 0.1 * at('motor.phaseResistance', 'lot')) * (1 + 0.02 * at('motor.phaseResistance', phase)) - 1;
			expect((drawn['motor.phaseResistance'] as number[])[phase]).toBeCloseTo(resistance, 14);
			const placement = 0.1 * at('motor.placement', 'lot') + 0.02 * at('motor.placement', phase);
			expect((drawn['motor.placement'] as number[])[phase]).toBeCloseTo(placement, 14);
		}
	});

	it('measured values replace lot and mismatch, one draw for each instance', () => {
		const list = [-0.01, 0.002, 0.03];
		const measured: Tolerance = { ...exact, lot: 0.5, mismatch: 0.5, distribution: 'measured', measured: list };
		const seen = new Set<number>();
		for (let unit = 0; unit < 100; unit++) {
			const drawn = drawParts(scenarioOfDefaults({ 'sensing.divider.top': measured }), 'demo', unit);
			for (const value of drawn['sensing.divider.top'] as number[]) seen.add(value);
		}
		expect([...seen].sort((a, b) => a - b)).toEqual(list);
	});

	it('a gap is cut out of the mismatch, not out of a batch that varies as well', () => {
		const gapped: Tolerance = { ...exact, lot: 0.05, mismatch: 0.05, distribution: 'gapped', gap: 0.02 };
		const uniforms = partUniforms('demo', 0).fill(0.5);
		expect(
			partsFromUniforms(scenarioOfDefaults({ 'motor.flatTop': { ...gapped, mismatch: 0 } }), uniforms)['motor.flatTop'],
		).toBeCloseTo(0.02, 12);
		expect(
			partsFromUniforms(scenarioOfDefaults({ 'motor.flatTop': { ...gapped, scale: 'absolute' } }), uniforms)[
				'motor.flatTop'
			],
		).toBeCloseTo(0.02, 12);
	});

	it('the base uniforms of 4,000 units are uniform in every slot and uncorrelated between units (4 standard errors)', () => {
		const units = Array.from({ length: 4000 }, (_, unit) => partUniforms('demo', unit));
		const pooled = Float64Array.from(units.flatMap((each) => [...each]));
		expect(distanceFrom(pooled, (x) => x)).toBeLessThan(criticalDistance(pooled.length));
		for (let slot = 0; slot < partSlots.length; slot++) {
			const column = units.map((each) => each[slot] as number);
			expect(Math.abs(correlation(column.slice(1), column.slice(0, -1)))).toBeLessThan(4 / Math.sqrt(4000));
			const next = units.map((each) => each[(slot + 1) % partSlots.length] as number);
			expect(Math.abs(correlation(column, next))).toBeLessThan(4 / Math.sqrt(4000));
		}
	});

	it('another seed gives another unit; a wrong number of uniforms is refused', () => {
		expect(drawParts(scenario, 'demo', 0)).not.toEqual(drawParts(scenario, 'other', 0));
		expect(() => partsFromUniforms(scenario, new Float64Array(3))).toThrow(RangeError);
	});
});
