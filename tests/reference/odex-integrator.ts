import { Outcome, Solver } from 'odex';
import { type Edge, type Holds, type PlainEquations, stateSize, work } from './plain-equations.ts';
import { type Margin, marginAt, margins } from './plain-inverter.ts';

export interface Tolerances {
	/** Absolute, A and V; the work integral's is a thousandth of it, J. */
	readonly absolute: number;
	readonly relative: number;
	/** Most columns of the extrapolation table. */
	readonly columns: number;
}

/** What holds over a stretch without gate edges, corners and commutations. */
export interface Stretch {
	readonly holds: Holds;
	/** Phase left open by the sector. */
	readonly open: number;
	readonly edge: Edge | null;
}

/** Where a stretch ended, and the margin that ended it, if one did before its time. */
export interface Advance {
	readonly time: number;
	readonly state: number[];
	readonly event: Margin | null;
}

/** Odex on the plain equations, over one stretch at a time, with diode events located on its own solution. */
export class OdexIntegrator {
	private readonly equations: PlainEquations;
	private readonly watching: Solver;
	private readonly plain: Solver;
	/** A margin this far below zero (V or A) has been crossed; less is the integration's own error. */
	private readonly crossed: number;

	constructor(equations: PlainEquations, { absolute, relative, columns }: Tolerances) {
		this.equations = equations;
		this.crossed = Math.max(1e-9, absolute);
		const solver = (): Solver => {
			const made = new Solver(stateSize);
			made.absoluteTolerance = new Array<number>(stateSize).fill(absolute);
			made.absoluteTolerance[work] = absolute / 1000;
			made.relativeTolerance = new Array<number>(stateSize).fill(relative);
			made.maxExtrapolationColumns = columns;
			return made;
		};
		this.plain = solver();
		this.watching = solver();
		this.watching.denseOutput = true;
		this.watching.denseComponents = [0, 1, 2];
	}

	/** From `time` to `end`, or to the first diode event before it. */
	advance(time: number, state: number[], end: number, stretch: Stretch): Advance {
		const { equations } = this;
		const { holds } = stretch;
		const watched = margins(holds);
		if (watched.length === 0) {
			return { time: end, state: this.solve(time, state, end, stretch), event: null };
		}
		let from = state;
		const found: Found[] = [];
		const result = this.watching.solve(
			// time from the stretch's start, so that no digits are lost to absolute time
			(s, y) => equations.derivative(time + s, y, holds, stretch.open, stretch.edge),
			0,
			state,
			end - time,
			(_step, start, stop, y, dense) => {
				if (!dense) return undefined; // called once before the first step
				const currents = (s: number): number[] => (s === stop ? y : [dense(0, s), dense(1, s), dense(2, s)]);
				for (const margin of watched) {
					const value = (s: number): number => marginAt(equations, margin, time + s, currents(s), holds);
					const at = firstZero(value, start, stop, this.crossed);
					if (at < Infinity) found.push({ margin, start, at, state: from });
				}
				if (found.length > 0) return false;
				from = y;
				return undefined;
			},
		);
		if (found.length > 0) {
			return this.place(
				time,
				found.reduce((first, one) => (one.at < first.at ? one : first)),
				stretch,
			);
		}
		if (result.outcome !== Outcome.Converged) throw new Error(`odex gave up at ${time} s`);
		return { time: end, state: result.y, event: null };
	}

	/** Integrates anew up to an event that dense output has found, and corrects what the interpolation was wrong by. */
	private place(time: number, found: Found, stretch: Stretch): Advance {
		const { equations } = this;
		const { margin } = found;
		const from = time + found.start;
		const value = (t: number, y: readonly number[]): number => marginAt(equations, margin, t, y, stretch.holds);
		let at = time + found.at;
		let state = this.solve(from, found.state, at, stretch);
		const before = this.solve(from, found.state, Math.max(from, at - probe), stretch);
		const slope = (value(at, state) - value(Math.max(from, at - probe), before)) / Math.min(probe, at - from);
		if (slope < 0) {
			const step = -value(at, state) / slope;
			if (Math.abs(step) < probe && at + step >= from) {
				at += step;
				state = this.solve(from, found.state, at, stretch);
			}
		}
		return { time: at, state, event: margin };
	}

	private solve(time: number, state: number[], end: number, { holds, open, edge }: Stretch): number[] {
		if (!(end > time)) return [...state];
		const f = (s: number, y: number[]): number[] => this.equations.derivative(time + s, y, holds, open, edge);
		const { y, outcome } = this.plain.solve(f, 0, state, end - time);
		if (outcome !== Outcome.Converged) throw new Error(`odex gave up at ${time} s`);
		return y;
	}
}

/** A margin that fell through zero `at` seconds into a stretch, in the step that began at `start` from `state`. */
interface Found {
	readonly margin: Margin;
	readonly start: number;
	readonly at: number;
	readonly state: number[];
}

/** Distance over which a margin's slope is taken at an event, s. */
const probe = 1e-8;

/** Points inside a step at which a margin is looked at, besides its end. */
const looks = 6;

/** First place in a step where a margin falls through zero, to the last bits by bisection; ∞ if none. */
function firstZero(value: (s: number) => number, start: number, stop: number, crossed: number): number {
	let above = start;
	for (let look = 1; look <= looks; look++) {
		const s = look === looks ? stop : start + ((stop - start) * look) / looks;
		const here = value(s);
		if (here >= -crossed) {
			above = s;
			continue;
		}
		let low = above;
		let high = s;
		for (let halving = 0; halving < 60; halving++) {
			const middle = (low + high) / 2;
			if (middle === low || middle === high) break;
			if (value(middle) > 0) low = middle;
			else high = middle;
		}
		return high;
	}
	return Infinity;
}
