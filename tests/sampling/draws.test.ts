import { describe, expect, it } from 'vitest';
import type { Distribution, NumberRecord, Tolerance } from '../../shared/parameters/parameter.ts';
import { parameters } from '../../shared/parameters/parameters.ts';
import { deviate } from '../../shared/sampling/deviate.ts';
import { drawParts, partUniforms } from '../../shared/sampling/draw-parts.ts';
import type { Draws } from '../../shared/sampling/draws.ts';
import { scenarioOfDefaults } from './first-demo.ts';

const kinds: readonly Draws[] = [{ kind: 'independent' }, { kind: 'latin', units: 512 }, { kind: 'sobol' }];
const parts = parameters.filter((record): record is NumberRecord => record.kind !== 'choice' && record.role === 'part');
const exact: Tolerance = { scale: 'relative', lot: 0, mismatch: 0, distribution: 'uniform', basis: 'assumed' };

describe.each(kinds)('$kind draws of parts', (draws) => {
	it('unit 7 is the same drawn first, last or alone', () => {
		const scenario = scenarioOfDefaults();
		const forward = Array.from({ length: 20 }, (_, unit) => drawParts(scenario, 'demo', unit, draws));
		const backward = Array.from({ length: 20 }, (_, i) => drawParts(scenario, 'demo', 19 - i, draws));
		expect(forward[7]).toEqual(backward[12]);
		expect(forward[7]).toEqual(drawParts(scenario, 'demo', 7, draws));
		expect(drawParts(scenario, 'other', 7, draws)).not.toEqual(forward[7]);
	});

	it('making any part vary changes no other draw', () => {
		for (const { id } of parts) {
			const varying = { ...exact, lot: 0.1, mismatch: 0.1 };
			const fixed = drawParts(scenarioOfDefaults({ [id]: exact }), 'demo', 3, draws);
			const drawn = drawParts(scenarioOfDefaults({ [id]: varying }), 'demo', 3, draws);
			expect(drawn[id]).not.toEqual(fixed[id]);
			expect({ ...drawn, [id]: 0 }).toEqual({ ...fixed, [id]: 0 });
		}
	});

	// variances of ±1: uniform 1/3, triangular 1/6, normal cut off at 3 σ 0.9733/9 (closed form 1 − 6φ(3)/(1 − 2Φ(−3))), gapped from the same with |z| > 1.5 (integrated numerically)
	const moments: readonly (readonly [Distribution, Partial<Tolerance>, number])[] = [
		['uniform', {}, 1 / 3],
		['triangular', {}, 1 / 6],
		['normal', {}, 0.973337 / 9],
		['gapped', { gap: 0.5 }, 3.764869 / 9],
		['measured', { measured: [-1, -0.5, 0.5, 1] }, 0.625],
	];
	it.each(moments)(
		'%s: mean and variance of 512 units, in every slot, within 4 standard errors or closer',
		(distribution, more, variance) => {
			const tolerance: Tolerance = { ...exact, ...more, distribution };
			const units = Array.from({ length: 512 }, (_, unit) => partUniforms('moments', unit, draws));
			for (let slot = 0; slot < (units[0] as Float64Array).length; slot++) {
				const values = units.map((each) => deviate(tolerance, 1, each[slot] as number));
				const mean = values.reduce((sum, x) => sum + x, 0) / 512;
				const square = values.reduce((sum, x) => sum + x * x, 0) / 512;
				// independent draws by chance; stratified ones are off by no more than a stratum
				const [offMean, offSquare] =
					draws.kind === 'independent' ? [4 * Math.sqrt(variance / 512), 4 / Math.sqrt(512)] : [0.006, 0.006];
				expect(Math.abs(mean)).toBeLessThan(offMean);
				expect(Math.abs(square - variance)).toBeLessThan(offSquare);
			}
		},
	);
});
