import { parameters } from '../parameters/parameters.ts';
import type { OperatingPoint, Scenario } from '../scenario/scenario.ts';
import type { Variant } from '../variants/variant.ts';
import { fewestRuns, fraction } from './fraction.ts';

export type Limit = 'low' | 'high';

/** An operating point with every condition that has a range at one of its limits. */
export interface Corner {
	/** Index of the point. */
	readonly point: number;
	/** By parameter id, in the order of the records. */
	readonly limits: Readonly<Record<string, Limit>>;
}

/** The corners to run. */
export interface Corners {
	readonly corners: readonly Corner[];
	/** All that there are. */
	readonly possible: number;
}

/** Ids of the conditions that have two limits at a point. */
export function rangedConditions({ values, ranges }: OperatingPoint): string[] {
	return parameters.flatMap(({ id }) => {
		const range = ranges[id];
		if (range === undefined || !(range.halfWidth > 0)) return [];
		return range.scale === 'absolute' || values[id] !== 0 ? [id] : [];
	});
}

/** Every combination of the limits at every point, or where these are more than `most`, each point's fraction of them. */
export function cornersOf({ points }: Pick<Scenario, 'points'>, most: number): Corners {
	const ids = points.map(rangedConditions);
	const possible = ids.reduce((sum, { length }) => sum + (1 << length), 0);
	const share =
		possible <= most
			? Number.POSITIVE_INFINITY
			: fairShare(
					ids.map(({ length }) => 1 << length),
					most,
				);
	const corners = ids.flatMap((own, point) =>
		fraction(own.length, share).map(
			(signs): Corner => ({
				point,
				limits: Object.fromEntries(own.map((id, i): [string, Limit] => [id, signs[i] === 1 ? 'high' : 'low'])),
			}),
		),
	);
	return { corners, possible };
}

/** Fewest corners that a thinned envelope can have. */
export function fewestCorners({ points }: Pick<Scenario, 'points'>): number {
	return points.reduce((sum, point) => sum + fewestRuns(rangedConditions(point).length), 0);
}

/** The corners that differ from this one in one limit. */
export function neighbours(corner: Corner): Corner[] {
	return Object.entries(corner.limits).map(([id, limit]) => ({
		...corner,
		limits: { ...corner.limits, [id]: limit === 'low' ? 'high' : 'low' },
	}));
}

/** The study's drives at a corner, with the moments that they meet at its point. */
export function cornerVariant({ points }: Pick<Scenario, 'points'>, corner: Corner): Variant {
	const point = points[corner.point];
	if (point === undefined) throw new RangeError(`point ${corner.point} of ${points.length}`);
	return { points: [{ name: point.name, values: cornerValues(point, corner), ranges: {} }], pointKeys: [corner.point] };
}

/** Every condition's value at a corner. */
export function cornerValues({ values, ranges }: OperatingPoint, { limits }: Corner): Readonly<Record<string, number>> {
	const at = Object.entries(limits).map(([id, limit]) => {
		const value = values[id] as number;
		const { scale, halfWidth } = ranges[id] as NonNullable<OperatingPoint['ranges'][string]>;
		// the lower limit of a negative temperature is still the lower one
		const step = (limit === 'high' ? 1 : -1) * (scale === 'relative' ? Math.abs(value) * halfWidth : halfWidth);
		return [id, value + step];
	});
	return { ...values, ...Object.fromEntries(at) };
}

/** The largest power of two of corners that a point may have so that all points together keep within `most`. */
function fairShare(sizes: readonly number[], most: number): number {
	let share = 1;
	while (sizes.reduce((sum, size) => sum + Math.min(size, 2 * share), 0) <= most) share *= 2;
	return share;
}
