import type { Deviations } from '../drive/build-drive.ts';
import type { NumberRecord, Tolerance } from '../parameters/parameter.ts';
import { parameters } from '../parameters/parameters.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { deviate } from './deviate.ts';
import { type Draws, independent, unitUniforms } from './draws.ts';

/** Where one base uniform of a unit goes. */
export interface PartSlot {
	/** Parameter id, or `ringPhase`. */
	readonly id: string;
	/** `lot`: common to the unit's instances; otherwise the instance's index. */
	readonly source: 'lot' | number;
}

const parts = parameters.filter((record): record is NumberRecord => record.kind !== 'choice' && record.role === 'part');

/**
 * The slots of a unit's base uniforms: the ring's phase, then for every part in
 * the order of its record one lot and one mismatch for each instance. All of
 * them are drawn whether or not they vary, so that making another one vary
 * moves no other draw.
 */
export const partSlots: readonly PartSlot[] = [
	{ id: 'ringPhase', source: 0 },
	...parts.flatMap(({ id, instances }): PartSlot[] => [
		{ id, source: 'lot' },
		...Array.from({ length: instances }, (_, instance) => ({ id, source: instance })),
	]),
];

/** One unit's deviations: a function of the seed and the unit's index alone (and of the number of units in a Latin hypercube). */
export function drawParts(scenario: Scenario, seed: string, unit: number, draws: Draws = independent): Deviations {
	return partsFromUniforms(scenario, partUniforms(seed, unit, draws));
}

/** A unit's base uniforms in [0, 1), in the order of `partSlots`; a slot's place is its dimension. */
export function partUniforms(seed: string, unit: number, draws: Draws = independent): Float64Array {
	return unitUniforms(seed, unit, partSlots.length, draws);
}

/**
 * The deviations that base uniforms stand for under a scenario's tolerances:
 * relative ones combine as (1 + lot)(1 + mismatch) − 1, absolute ones add,
 * measured ones are drawn anew for each instance and have no lot.
 *
 * @param uniforms as from `partUniforms`, or a design's own in [0, 1)
 */
export function partsFromUniforms(scenario: Scenario, uniforms: Float64Array): Deviations {
	if (uniforms.length !== partSlots.length) {
		throw new RangeError(`${uniforms.length} uniforms given for ${partSlots.length} slots`);
	}
	const deviations: Record<string, number | readonly number[]> = { ringPhase: uniforms[0] as number };
	let slot = 1;
	for (const { id, instances } of parts) {
		const tolerance = scenario.tolerances[id];
		if (tolerance) {
			const lot = lotDeviation(tolerance, uniforms[slot] as number);
			const combined: number[] = [];
			for (let instance = 1; instance <= instances; instance++) {
				const mismatch = deviate(tolerance, tolerance.mismatch, uniforms[slot + instance] as number);
				combined.push(tolerance.scale === 'relative' ? lot + mismatch + lot * mismatch : lot + mismatch);
			}
			deviations[id] = instances === 1 ? (combined[0] as number) : combined;
		}
		slot += 1 + instances;
	}
	return deviations;
}

/** A grade is picked out part by part, so a gap belongs to the mismatch; to the lot only where nothing else varies. */
function lotDeviation(tolerance: Tolerance, u: number): number {
	if (tolerance.distribution === 'measured') return 0;
	if (tolerance.distribution === 'gapped' && tolerance.mismatch > 0) {
		return deviate({ ...tolerance, distribution: 'normal' }, tolerance.lot, u);
	}
	return deviate(tolerance, tolerance.lot, u);
}
