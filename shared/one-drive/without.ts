import type { Deviations } from '../drive/build-drive.ts';
import { parameters } from '../parameters/parameters.ts';
import type { Values } from '../scenario/scenario.ts';

/** What is taken out of a drive, one at a time, to find why it fails. */
export const removals = ['ringing', 'noise', 'mismatch', 'ripple', 'offset'] as const;
export type Removal = (typeof removals)[number];

export const removalWords: Readonly<Record<Removal, string>> = {
	ringing: 'ringing',
	noise: 'comparator noise',
	mismatch: 'mismatch between its parts',
	ripple: 'bus ripple',
	offset: 'comparator offset',
};

interface Built {
	readonly values: Values;
	readonly deviations: Deviations;
}

/**
 * The same drive without one disturbance. Without mismatch, parts that should be equal are: a winding's
 * three phases deviate by their mean, all sensing resistors by theirs, all sensing capacitors by theirs.
 */
export function without(removal: Removal, { values, deviations }: Built): Built {
	switch (removal) {
		case 'ringing':
			return { values: { ...values, 'noise.ringAmplitude': 0 }, deviations };
		case 'noise':
			return { values: { ...values, 'noise.sigma': 0 }, deviations };
		case 'ripple':
			return { values: { ...values, 'supply.rippleAmplitude': 0 }, deviations };
		case 'offset':
			return {
				values: { ...values, 'sensing.comparator.offset': 0 },
				deviations: { ...deviations, 'sensing.comparator.offset': 0 },
			};
		case 'mismatch':
			return { values, deviations: { ...deviations, ...matched(deviations) } };
	}
}

function matched(deviations: Deviations): Record<string, number> {
	const made: Record<string, number> = {};
	for (const group of equalParts) {
		const all = group.flatMap(({ id, instances }) => {
			const given = deviations[id] ?? 0;
			return Array.from({ length: instances }, (_, i) => (typeof given === 'number' ? given : (given[i] ?? 0)));
		});
		const mean = all.reduce((sum, one) => sum + one, 0) / all.length;
		for (const { id } of group) made[id] = mean;
	}
	return made;
}

interface Part {
	readonly id: string;
	readonly instances: number;
}

/** Groups of parts that deviate alike in a drive without mismatch. */
const equalParts: readonly (readonly Part[])[] = (() => {
	const own: Part[][] = [];
	const resistors: Part[] = [];
	const capacitors: Part[] = [];
	for (const record of parameters) {
		if (record.kind === 'choice' || record.role !== 'part' || record.id === 'sensing.comparator.offset') continue;
		if (record.unit === 'Ω' && record.id.startsWith('sensing.')) resistors.push(record);
		else if (record.unit === 'F') capacitors.push(record);
		else if (record.instances > 1) own.push([record]);
	}
	return [...own, resistors, capacitors];
})();
