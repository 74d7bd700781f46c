import type { FailurePoint } from './failure-search.ts';

/** A draw that failed, with its weight. */
export interface FailingDraw {
	readonly point: Float64Array;
	readonly weight: number;
}

/** A point to be tried under the moments of the failing draw that it comes from; answered with whether it fails. */
export interface Trial {
	readonly point: Float64Array;
	readonly draw: number;
}

/** Draws followed in a round. */
const followed = 8;
const halvings = 7;
/** A point this near to another is covered by its draws, standard deviations. */
const covered = 1.2;

/**
 * Failing points that a search overlooked, from what failed among draws around
 * those it found. The draws of the largest weights lie where the mixture is
 * thinnest. Of each, coordinates are put back to the middle as long as it still
 * fails, in ever smaller groups from the smallest on; then it is drawn in to
 * where it just fails. Repeated, this follows a failing region that bends around
 * the origin, which no single tangent plane can.
 */
export function* widenPoints(
	points: readonly FailurePoint[],
	draws: readonly FailingDraw[],
): Generator<readonly Trial[], FailurePoint[], readonly boolean[]> {
	const heaviest = draws
		.map(({ point, weight }, draw) => ({ point, weight, draw }))
		.sort((one, other) => other.weight - one.weight)
		.slice(0, followed);
	const reduced = yield* putBack(heaviest);
	const inside = reduced.map(() => 0);
	const outside = reduced.map(() => 1);
	for (let halving = 0; halving < halvings && reduced.length > 0; halving++) {
		const middles = reduced.map((_, i) => ((inside[i] as number) + (outside[i] as number)) / 2);
		const fails = yield reduced.map(({ point, draw }, i) => ({
			point: point.map((x) => x * (middles[i] as number)),
			draw,
		}));
		for (const [i, middle] of middles.entries()) (fails[i] ? outside : inside)[i] = middle;
	}
	const whole = [...points];
	for (const [i, { point: far }] of reduced.entries()) {
		const point = far.map((x) => x * (outside[i] as number));
		const distance = apart(point, new Float64Array(point.length));
		const isNew = whole.every((one) => apart(one.point, point) > covered);
		if (isNew && distance > 0) whole.push({ point, distance, figure: -1 });
	}
	return whole;
}

/** Each draw with what it fails without put back to 0. */
function* putBack(
	draws: readonly { readonly point: Float64Array; readonly draw: number }[],
): Generator<readonly Trial[], Trial[], readonly boolean[]> {
	const states = draws.map(({ point, draw }) => ({
		point,
		draw,
		order: [...point.keys()].sort((one, other) => Math.abs(point[one] as number) - Math.abs(point[other] as number)),
		start: 0,
		size: Math.ceil(point.length / 2),
	}));
	for (;;) {
		const open = states.filter(({ start, order }) => start < order.length);
		if (open.length === 0) return states.map(({ point, draw }) => ({ point, draw }));
		const trials = open.map(({ point, draw, order, start, size }): Trial => {
			const trial = point.slice();
			for (const k of order.slice(start, start + size)) trial[k] = 0;
			return { point: trial, draw };
		});
		const fails = yield trials;
		for (const [i, state] of open.entries()) {
			if (fails[i]) {
				state.point = (trials[i] as Trial).point;
				state.start += state.size;
			} else if (state.size > 1) state.size = Math.ceil(state.size / 2);
			else {
				// this one is needed: on with those after it
				state.start += 1;
				state.size = Math.ceil((state.order.length - state.start) / 2);
			}
		}
	}
}

function apart(one: Float64Array, other: Float64Array): number {
	let sum = 0;
	for (let k = 0; k < one.length; k++) {
		const difference = (one[k] as number) - (other[k] as number);
		sum += difference * difference;
	}
	return Math.sqrt(sum);
}
