import { partSlots, partUniforms } from '../sampling/draw-parts.ts';
import { startSlots, startUniforms } from '../sampling/draw-start.ts';

/** Base uniforms of one drive at one start. */
export interface DriveUniforms {
	/** In the order of `partSlots`. */
	readonly parts: Float64Array;
	/** In the order of `startSlots`. */
	readonly start: Float64Array;
}

/** Drives numbered from 0, each a function of the design and its number alone; plain data, to be sent to workers. */
export type DriveDesign =
	/** Drives drawn at random. */
	| { readonly kind: 'random'; readonly seed: string; readonly point: number }
	/**
	 * Pick-freeze: rows of 2 + groups drives. Drive A and drive B are drawn
	 * independently; then for each group A with that group's uniforms from B.
	 */
	| {
			readonly kind: 'pickFreeze';
			readonly seed: string;
			readonly point: number;
			readonly groups: readonly { readonly parts: readonly number[]; readonly starts: readonly number[] }[];
	  }
	/** Given drives. */
	| { readonly kind: 'given'; readonly drives: readonly DriveUniforms[] };

/** Drives in a row of a pick-freeze design. */
export const drivesPerRow = (groups: number): number => 2 + groups;

/** Uniforms of the design's drive `index`. */
export function driveUniforms(design: DriveDesign, index: number): DriveUniforms {
	if (design.kind === 'given') {
		const drive = design.drives[index];
		if (!drive) throw new RangeError(`drive ${index} of ${design.drives.length}`);
		return drive;
	}
	const { seed, point } = design;
	if (design.kind === 'random') return drawn(seed, point, index);
	const { groups } = design;
	const row = Math.floor(index / drivesPerRow(groups.length));
	const place = index % drivesPerRow(groups.length);
	if (place === 1) return drawn(seed, point, 2 * row + 1);
	const a = drawn(seed, point, 2 * row);
	const group = groups[place - 2];
	if (!group) return a;
	const b = drawn(seed, point, 2 * row + 1);
	for (const slot of group.parts) a.parts[slot] = b.parts[slot] as number;
	for (const slot of group.starts) a.start[slot] = b.start[slot] as number;
	return a;
}

/** Independent uniforms throughout: a single start has no strata to fall into. */
const drawn = (seed: string, point: number, unit: number): DriveUniforms => ({
	parts: partUniforms(seed, unit),
	start: startUniforms(seed, unit, point, 0, 1),
});

/** Every part and condition in the middle of its distribution; the moment is the caller's to choose. */
export const middleUniforms = (): DriveUniforms => ({
	parts: new Float64Array(partSlots.length).fill(0.5),
	start: new Float64Array(startSlots.length).fill(0.5),
});
