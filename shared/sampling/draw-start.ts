import { parameters } from '../parameters/parameters.ts';
import type { OperatingPoint, Scenario } from '../scenario/scenario.ts';
import { stream } from './stream.ts';
import { uniform } from './uniform.ts';

/** What one start of one unit at one operating point happens to meet. */
export interface Start {
	/** Every condition's value by id. */
	readonly conditions: Readonly<Record<string, number>>;
	/** Carrier phase at t = 0, 0…1. */
	readonly pwmPhase: number;
	/** Ripple phase at t = 0, 0…1. */
	readonly ripplePhase: number;
}

const conditionIds: readonly string[] = parameters
	.filter((record) => record.role === 'condition')
	.map((record) => record.id);

/**
 * Where each base uniform of a start goes: the two phases, then every condition
 * in the order of its record, drawn whether or not it has a range.
 */
export const startSlots: readonly string[] = ['pwmPhase', 'ripplePhase', ...conditionIds];

/**
 * One start: a function of the seed, the indices and the scenario's number of starts alone.
 *
 * @param key index that the moments are drawn under; the point's own if not given
 */
export function drawStart(
	scenario: Scenario,
	seed: string,
	unit: number,
	point: number,
	start: number,
	key = point,
): Start {
	const operatingPoint = scenario.points[point];
	if (!operatingPoint) throw new RangeError(`point ${point} of ${scenario.points.length}`);
	const starts = scenario.values['trial.starts'];
	if (typeof starts !== 'number') throw new RangeError(`trial.starts must be a number, not ${String(starts)}`);
	return startFromUniforms(operatingPoint, startUniforms(seed, unit, key, start, starts));
}

/**
 * A start's base uniforms in [0, 1), in the order of `startSlots`. Over the
 * starts of one unit and point each phase falls once into each of `starts` equal
 * strata, in an order of its own, so that no verdict hangs on one phase.
 */
export function startUniforms(seed: string, unit: number, point: number, start: number, starts: number): Float64Array {
	if (!Number.isInteger(start) || !(start >= 0 && start < starts)) throw new RangeError(`start ${start} of ${starts}`);
	const uniforms = new Float64Array(startSlots.length);
	const orders = stream(seed, 'strata', unit, point);
	const own = stream(seed, 'start', unit, point, start);
	for (let phase = 0; phase < 2; phase++) {
		const stratum = permutation(starts, orders.double)[start] as number;
		uniforms[phase] = Math.min((stratum + own.double()) / starts, 1 - 2 ** -53);
	}
	for (let slot = 2; slot < uniforms.length; slot++) uniforms[slot] = own.double();
	return uniforms;
}

/** The start that base uniforms stand for: a condition with a range is uniform in it, the others keep their value. */
export function startFromUniforms(point: OperatingPoint, uniforms: Float64Array): Start {
	if (uniforms.length !== startSlots.length) {
		throw new RangeError(`${uniforms.length} uniforms given for ${startSlots.length} slots`);
	}
	const conditions: Record<string, number> = { ...point.values };
	for (let slot = 2; slot < startSlots.length; slot++) {
		const id = startSlots[slot] as string;
		const range = point.ranges[id];
		const value = point.values[id];
		if (!range || value === undefined) continue;
		const deviation = uniform(range.halfWidth, uniforms[slot] as number);
		conditions[id] = range.scale === 'relative' ? value * (1 + deviation) : value + deviation;
	}
	return { conditions, pwmPhase: uniforms[0] as number, ripplePhase: uniforms[1] as number };
}

/** Random order of 0 … length − 1 (Fisher–Yates, inside out). */
function permutation(length: number, next: () => number): Uint32Array {
	const order = new Uint32Array(length);
	for (let i = 1; i < length; i++) {
		const j = Math.floor(next() * (i + 1));
		order[i] = order[j] as number;
		order[j] = i;
	}
	return order;
}
