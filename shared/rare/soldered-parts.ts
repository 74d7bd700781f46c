import type { Deviations } from '../drive/build-drive.ts';
import type { Unit } from '../parameters/parameter.ts';
import { parameter } from '../parameters/parameters.ts';
import { partSlots } from '../sampling/draw-parts.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { PartSpace } from './part-space.ts';

/** One part of a drive, as one would select and solder it. Values at 25 °C. */
export interface SolderedPart {
	/** Parameter id, and which of its instances (0, 1, 2: phases a, b, c); `ringPhase` for the ring's. */
	readonly id: string;
	readonly instance: number;
	readonly unit: Unit;
	readonly nominal: number;
	readonly value: number;
	/** Relative where `isRelative`, else in the part's unit. */
	readonly deviation: number;
	readonly isRelative: boolean;
	/** Its share of the squared distance from the middle of all tolerances. */
	readonly share: number;
}

/**
 * Keeps only the coordinates that make a point unlikely: the largest, until
 * their squares come to `share` of the whole. The others return to the middle.
 */
export function essential(point: Float64Array, share = 0.95): Float64Array {
	const order = [...point.keys()].sort(
		(one, other) => Math.abs(point[other] as number) - Math.abs(point[one] as number),
	);
	const whole = point.reduce((sum, x) => sum + x * x, 0);
	const kept = new Float64Array(point.length);
	let sum = 0;
	for (const k of order) {
		if (sum >= share * whole) break;
		const x = point[k] as number;
		kept[k] = x;
		sum += x * x;
	}
	return kept;
}

/** Every part that a point moves off the middle, those that make it unlikeliest first. */
export function solderedParts(scenario: Scenario, space: PartSpace, point: Float64Array): SolderedPart[] {
	const deviations = space.deviations(point);
	const whole = point.reduce((sum, x) => sum + x * x, 0);
	const shares = new Map<string, number>();
	for (const [k, slot] of space.slots.entries()) {
		const { id, source } = partSlots[slot] as (typeof partSlots)[number];
		const z = point[k] as number;
		const share = whole > 0 ? (z * z) / whole : 0;
		// what a lot has in common falls to its instances alike
		const instances = id === 'ringPhase' ? 1 : instancesOf(id);
		const receivers = source === 'lot' ? [...Array(instances).keys()] : [source];
		for (const one of receivers) {
			const key = `${id} ${one}`;
			shares.set(key, (shares.get(key) ?? 0) + share / receivers.length);
		}
	}
	const moved = [...shares].flatMap(([key, share]): SolderedPart[] => {
		if (share === 0) return [];
		const [id = '', place] = key.split(' ');
		return [soldered(scenario, deviations, id, Number(place), share)];
	});
	return moved.sort((one, other) => other.share - one.share);
}

function soldered(
	{ values, tolerances }: Scenario,
	deviations: Deviations,
	id: string,
	instance: number,
	share: number,
): SolderedPart {
	const given = deviations[id] ?? 0;
	const deviation = typeof given === 'number' ? given : (given[instance] ?? 0);
	if (id === 'ringPhase') {
		return { id, instance, unit: '°', nominal: 0, value: 360 * deviation, deviation, isRelative: false, share };
	}
	const record = parameter(id);
	const nominal = values[id] as number;
	const isRelative = tolerances[id]?.scale === 'relative';
	return {
		id,
		instance,
		unit: record.kind === 'choice' ? '1' : record.unit,
		nominal,
		value: isRelative ? nominal * (1 + deviation) : nominal + deviation,
		deviation,
		isRelative,
		share,
	};
}

function instancesOf(id: string): number {
	const record = parameter(id);
	return record.kind === 'choice' ? 1 : record.instances;
}
