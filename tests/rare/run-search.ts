import { drawFromMixture, type FailureMixture, failureMixture } from '../../shared/rare/failure-mixture.ts';
import {
	type FailurePoint,
	type LimitValue,
	type SearchOptions,
	searchFailures,
	type Trials,
} from '../../shared/rare/failure-search.ts';
import { widenPoints } from '../../shared/rare/widen-points.ts';
import type { KnownLimit } from './known-limits.ts';

/** Runs a search on a pure function; and how many points it asked for. */
export function runSearch(limit: KnownLimit, options: SearchOptions = {}): { found: FailurePoint[]; asked: number } {
	const search = searchFailures(limit.dimension, options);
	let asked = 0;
	let step = search.next();
	while (!step.done) {
		asked += step.value.points.length;
		step = search.next(answers(limit, step.value));
	}
	return { found: step.value, asked };
}

/** What was asked for and nothing else: neither figures nor failing comes unasked. */
const answers = (limit: KnownLimit, { points, of }: Trials): LimitValue[] =>
	points.map((point, i) => {
		const { fails, figures } = limit.value(point);
		if (of === 'failing') return { fails, figures: [] };
		const isWanted = (figure: number): boolean => of === 'figures' || of[i] === figure;
		return { fails: false, figures: Array.from(figures, (value, k) => (isWanted(k) ? value : Number.NaN)) };
	});

/** Points of a search, widened by what failed among draws around them. */
export function widened(limit: KnownLimit, found: readonly FailurePoint[], rounds = 5, draws = 500): FailurePoint[] {
	let points = [...found];
	for (let round = 0; round < rounds; round++) {
		const mixture = failureMixture([{ points, part: 1 }]);
		const failing = Array.from({ length: draws }, (_, i) =>
			drawFromMixture(mixture, limit.dimension, `pilot ${round}`, i),
		).filter(({ point }) => limit.value(point).fails);
		const widening = widenPoints(points, failing);
		let step = widening.next();
		while (!step.done) step = widening.next(step.value.map(({ point }) => limit.value(point).fails));
		points = step.value;
	}
	return points;
}

/** Weights of failing draws, 0 of passing ones. */
export function sampleFailures(limit: KnownLimit, mixture: FailureMixture, draws: number, seed: string): Float64Array {
	return Float64Array.from({ length: draws }, (_, i) => {
		const { point, weight } = drawFromMixture(mixture, limit.dimension, seed, i);
		return limit.value(point).fails ? weight : 0;
	});
}
