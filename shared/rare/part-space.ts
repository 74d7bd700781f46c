import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import type { Deviations } from '../drive/build-drive.ts';
import { canAct } from '../parameters/acting-parts.ts';
import { partSlots, partsFromUniforms } from '../sampling/draw-parts.ts';
import type { Scenario } from '../scenario/scenario.ts';

/**
 * The parts of a drive as independent standard normal coordinates: each base
 * uniform that makes a difference is u = Φ(z). The middle of every tolerance is
 * the origin, and |z| says how unlikely a combination is; a uniform tolerance's
 * limit lies at infinity, a normal one's 3 σ too, since what is beyond was
 * sorted out.
 */
export interface PartSpace {
	/** Place in `partSlots` of each coordinate. */
	readonly slots: readonly number[];
	/** Base uniforms of a point; what is no coordinate is in the middle of its distribution. */
	uniforms(point: Float64Array): Float64Array;
	deviations(point: Float64Array): Deviations;
}

/** @param scenario whose tolerances say which parts vary */
export function partSpace(scenario: Scenario): PartSpace {
	const slots = partSlots.flatMap((_, slot) => (makesADifference(scenario, slot) ? [slot] : []));
	const uniforms = (point: Float64Array): Float64Array => {
		if (point.length !== slots.length) throw new RangeError(`${point.length} coordinates for ${slots.length} parts`);
		const all = new Float64Array(partSlots.length).fill(0.5);
		for (const [k, slot] of slots.entries()) {
			const z = point[k] as number;
			if (Number.isNaN(z)) throw new RangeError(`coordinate ${k} is not a number`);
			all[slot] = Math.min(normalCdf(z, 0, 1), 1 - 2 ** -53);
		}
		return all;
	};
	return { slots, uniforms, deviations: (point) => partsFromUniforms(scenario, uniforms(point)) };
}

/** Whether a base uniform can move anything under this scenario. */
function makesADifference({ values, points, tolerances }: Scenario, slot: number): boolean {
	const { id, source } = partSlots[slot] as (typeof partSlots)[number];
	if (id === 'ringPhase') return Number(values['noise.ringAmplitude']) > 0;
	if (!points.some((point) => canAct(id, { ...values, ...point.values }, point.ranges))) return false;
	const tolerance = tolerances[id];
	if (!tolerance) return false;
	if (tolerance.distribution === 'measured') return source !== 'lot' && new Set(tolerance.measured).size > 1;
	return (source === 'lot' ? tolerance.lot : tolerance.mismatch) > 0;
}
