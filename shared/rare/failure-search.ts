/** What one drive of the standardised space comes to. */
export interface LimitValue {
	readonly fails: boolean;
	/** Smooth figures whose slopes tell which way failing lies; NaN where there is none. Always as many. */
	readonly figures: ArrayLike<number>;
}

/** Points to be evaluated, and what is looked at: whether they fail, every figure, or of each point the one named. */
export interface Trials {
	readonly points: readonly Float64Array[];
	readonly of: 'failing' | 'figures' | readonly number[];
}

/** A most probable failing point of its neighbourhood. */
export interface FailurePoint {
	/** Fails, but would no longer a little nearer to the origin. */
	readonly point: Float64Array;
	/** |point|: standard deviations from the middle of the space. */
	readonly distance: number;
	/** The figure whose slope led there. */
	readonly figure: number;
}

export interface SearchOptions {
	/** How far out is searched, standard deviations: Φ(−8.5) = 10⁻¹⁷. */
	readonly farthest?: number;
	/** Points farther from the origin than the nearest one plus this are not followed: e^(−1.5·β) of its share. */
	readonly slack?: number;
	/** At most so many points. */
	readonly most?: number;
	readonly rounds?: number;
}

/** Asks for the points to be evaluated next, and is answered with their values in the same order. */
type Asking<Found> = Generator<Trials, Found, readonly LimitValue[]>;
export type FailureSearch = Asking<FailurePoint[]>;

interface Ray {
	readonly direction: Float64Array;
	readonly figure: number;
}

/** Spacing of the scan along a ray, and how often the last step is halved. */
const scanStep = 0.5;
const halvings = 6;
/** Half-width of the differences that slopes are taken from: wide, since figures of sampled drives have small steps. */
const slopeReach = 0.75;
/** Rays whose angle has a cosine above this count as one. */
const sameDirection = 0.97;

/**
 * Looks for the likeliest failing points of a standard normal space: those
 * nearest to its origin. From the origin it follows the slopes of every figure
 * both ways until something fails; then, from each point found, it goes to
 * where the tangent plane of that figure comes nearest to the origin and looks
 * for failing along that ray (the iteration of Hasofer, Lind, Rackwitz and
 * Fiessler: R. Rackwitz and B. Fiessler, Computers & Structures 9 (1978)
 * 489–494, with a search along the ray in place of its step), as long as that
 * comes nearer. Failing itself may be a matter of steps: only the direction
 * leans on the figures.
 *
 * Nearest first; the origin alone where that fails; empty where nothing fails
 * within `farthest`.
 */
export function* searchFailures(
	dimension: number,
	{ farthest = 8.5, slack = 1.5, most = 8, rounds = 5 }: SearchOptions = {},
): FailureSearch {
	const origin = new Float64Array(dimension);
	const [middle] = yield { points: [origin], of: 'failing' };
	if (middle?.fails) return [{ point: origin, distance: 0, figure: -1 }];
	const slopes = yield* slopesAtOrigin(origin);
	const rays = slopes.flatMap((slope, figure): Ray[] => {
		const direction = unitVector(slope);
		return direction ? [direction, direction.map((x) => -x)].map((each) => ({ direction: each, figure })) : [];
	});
	let found = nearestFew(yield* firstFailures(apart(rays), 0, farthest, slack), most, slack);
	let active = found.map(() => true);

	for (let round = 0; round < rounds && active.includes(true); round++) {
		const moving = found.flatMap((point, i) => (active[i] ? [{ i, point }] : []));
		const slopes = yield* ownSlopes(moving.map(({ point }) => point));
		const attempts = moving.flatMap(({ i, point }, m): (Ray & { i: number; from: number })[] => {
			const slope = slopes[m];
			const tangent = slope && unitVector(slope);
			if (!tangent) return [];
			const along = dot(tangent, point.point);
			const nearest = along < 0 ? tangent.map((x) => -x) : tangent;
			const halfway = unitVector(nearest.map((x, k) => x + (point.point[k] as number) / point.distance));
			const from = Math.max(0, 0.75 * point.distance);
			return [nearest, halfway ?? nearest].map((direction) => ({ direction, figure: point.figure, i, from }));
		});
		const outcomes = yield* failuresFrom(attempts, found);
		active = found.map((before, i) => {
			let best = before;
			for (const [k, outcome] of outcomes.entries()) {
				if (attempts[k]?.i === i && outcome && outcome.distance < best.distance) best = outcome;
			}
			found[i] = best;
			// what gained little gains nothing worth its slopes the next time
			return best.distance < 0.98 * before.distance;
		});
	}
	found = nearestFew(found, most, slack);
	return found;
}

/** Slopes of every figure at the origin, [figure][coordinate]. */
function* slopesAtOrigin(origin: Float64Array): Asking<Float64Array[]> {
	const values = yield { points: around(origin), of: 'figures' };
	return Array.from({ length: values[0]?.figures.length ?? 0 }, (_, figure) => slopeOf(figure, values));
}

/** The slope of each point's own figure there. */
function* ownSlopes(points: readonly FailurePoint[]): Asking<Float64Array[]> {
	const trials = points.map(({ point }) => around(point));
	const each = trials[0]?.length ?? 0;
	const values = yield { points: trials.flat(), of: points.flatMap(({ figure }) => Array<number>(each).fill(figure)) };
	return points.map(({ figure }, i) => slopeOf(figure, values.slice(i * each, (i + 1) * each)));
}

/** Two points for every coordinate, ahead of `point` and behind it. */
const around = (point: Float64Array): Float64Array[] =>
	Array.from(point, (_, k) => [moved(point, k, slopeReach), moved(point, k, -slopeReach)]).flat();

/** Central differences of a figure, from its values at points `around` one; NaN becomes 0. */
const slopeOf = (figure: number, values: readonly LimitValue[]): Float64Array =>
	Float64Array.from({ length: values.length / 2 }, (_, k) => {
		const up = values[2 * k]?.figures[figure] ?? Number.NaN;
		const down = values[2 * k + 1]?.figures[figure] ?? Number.NaN;
		const slope = (up - down) / (2 * slopeReach);
		return Number.isFinite(slope) ? slope : 0;
	});

/** Where each ray first fails, scanned outwards together until none can come within `slack` of the nearest. */
function* firstFailures(rays: readonly Ray[], from: number, farthest: number, slack: number): Asking<FailurePoint[]> {
	const failing: (Ray & { outside: number })[] = [];
	let waiting = [...rays];
	let end = farthest;
	for (let t = from + scanStep; t <= end + 1e-9 && waiting.length > 0; t += scanStep) {
		const values = yield { points: waiting.map(({ direction }) => scaled(direction, t)), of: 'failing' };
		const hit = waiting.filter((_, i) => values[i]?.fails);
		waiting = waiting.filter((_, i) => !values[i]?.fails);
		failing.push(...hit.map((ray) => ({ ...ray, outside: t })));
		if (hit.length > 0) end = Math.min(end, t + slack);
	}
	return yield* narrowed(failing);
}

/** Where attempts fail before the points they set out to better; null where they do not. */
function* failuresFrom(
	attempts: readonly (Ray & { i: number; from: number })[],
	found: readonly FailurePoint[],
): Asking<(FailurePoint | null)[]> {
	const steps = 5;
	const scan = attempts.flatMap(({ direction, i, from }) => {
		const { distance = 0 } = found[i] ?? {};
		return Array.from({ length: steps }, (_, s) => ({ direction, t: from + ((distance - from) * (s + 0.98)) / steps }));
	});
	const points = scan.map(({ direction, t }) => scaled(direction, t));
	const values = points.length > 0 ? yield { points, of: 'failing' } : [];
	const hits = attempts.flatMap((attempt, a) => {
		const first = scan.slice(a * steps, (a + 1) * steps).findIndex((_, s) => values[a * steps + s]?.fails);
		return first < 0 ? [] : [{ ...attempt, a, outside: scan[a * steps + first]?.t ?? 0 }];
	});
	const narrow = yield* narrowed(hits);
	const outcomes: (FailurePoint | null)[] = attempts.map(() => null);
	hits.forEach(({ a }, k) => {
		outcomes[a] = narrow[k] ?? null;
	});
	return outcomes;
}

/** Halves the last step of every ray at once; keeps to the failing side. */
function* narrowed(rays: readonly (Ray & { outside: number })[]): Asking<FailurePoint[]> {
	const inside = rays.map(({ outside }) => Math.max(0, outside - scanStep));
	const outside = rays.map((ray) => ray.outside);
	for (let halving = 0; halving < halvings && rays.length > 0; halving++) {
		const middles = rays.map((_, i) => ((inside[i] as number) + (outside[i] as number)) / 2);
		const points = rays.map(({ direction }, i) => scaled(direction, middles[i] as number));
		const values = yield { points, of: 'failing' };
		for (const [i, middle] of middles.entries()) (values[i]?.fails ? outside : inside)[i] = middle;
	}
	return rays.map(({ direction, figure }, i) => ({
		point: scaled(direction, outside[i] as number),
		distance: outside[i] as number,
		figure,
	}));
}

/** Nearest first, none in the same direction as a nearer one, none beyond the slack. */
function nearestFew(points: readonly FailurePoint[], most: number, slack: number): FailurePoint[] {
	const ordered = [...points].sort((one, other) => one.distance - other.distance);
	const kept: FailurePoint[] = [];
	for (const point of ordered) {
		if (point.distance > (ordered[0]?.distance ?? 0) + slack || kept.length >= most) break;
		const isNew = kept.every((one) => dot(one.point, point.point) < sameDirection * one.distance * point.distance);
		if (isNew) kept.push(point);
	}
	return kept;
}

/** Rays without those that another already covers. */
function apart(rays: readonly Ray[]): Ray[] {
	const kept: Ray[] = [];
	for (const ray of rays) if (kept.every((one) => dot(one.direction, ray.direction) < 0.995)) kept.push(ray);
	return kept;
}

function unitVector(vector: Float64Array): Float64Array | null {
	const length = Math.sqrt(dot(vector, vector));
	return length > 0 && Number.isFinite(length) ? vector.map((x) => x / length) : null;
}

const scaled = (direction: Float64Array, t: number): Float64Array => direction.map((x) => x * t);

const moved = (point: Float64Array, coordinate: number, by: number): Float64Array =>
	point.map((x, k) => (k === coordinate ? x + by : x));

function dot(one: Float64Array, other: Float64Array): number {
	let sum = 0;
	for (let k = 0; k < one.length; k++) sum += (one[k] as number) * (other[k] as number);
	return sum;
}
