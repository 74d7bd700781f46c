import type { Chopping } from '../../shared/drive/drive.ts';
import { type Hold, type Holds, isDiode, type PlainEquations, sectors } from './plain-equations.ts';

/** Where in its period the carrier is: on-window, off-window, or the part of it in which the low switch is closed. */
export type Part = 'on' | 'off' | 'low closed';

/** What the gates hold in a sector; `open` where both switches of a terminal are off. */
export function gates(sector: number, chopping: Chopping, part: Part): Hold[] {
	const { high, low } = sectors[sector % 6] as (typeof sectors)[number];
	const holds: Hold[] = ['open', 'open', 'open'];
	if (part === 'on' || chopping === 'low-side') holds[high] = 'high switch';
	else if (part === 'low closed') holds[high] = 'low switch';
	if (part === 'on' || chopping === 'high-side' || chopping === 'complementary') holds[low] = 'low switch';
	return holds;
}

/**
 * Adds to what the gates hold the diodes that conduct: by the sign of a
 * current, or because `event` says that it has just come to its limit, and for
 * every other open terminal the one state among open, low and high diode in
 * which no voltage and no current slope contradicts it, found by trying all.
 */
export function settle(
	equations: PlainEquations,
	t: number,
	i: readonly number[],
	held: readonly Hold[],
	event: Margin | null = null,
): Holds {
	const holds = [...held] as [Hold, Hold, Hold];
	const free: (0 | 1 | 2)[] = [];
	for (const k of [0, 1, 2] as const) {
		if (holds[k] !== 'open') continue;
		const current = i[k] as number;
		if (current > 0) holds[k] = 'low diode';
		else if (current < 0) holds[k] = 'high diode';
		else if (event?.phase === k && event.to !== 'open') holds[k] = event.to;
		else free.push(k);
	}
	if (free.length === 3) return event?.phase === -1 || pairMargin(equations, t, i) < 0 ? pair(equations, holds) : holds;

	for (const trial of trials[free.length] as readonly Hold[][]) {
		free.forEach((k, place) => {
			holds[k] = trial[place] as Hold;
		});
		equations.terminals(t, i, holds);
		const { v, rate, low, bus } = equations;
		const { diodeDrop } = equations.drive.inverter;
		const contradiction = free.some((k) => {
			if (holds[k] === 'low diode') return rate[k] <= 0;
			if (holds[k] === 'high diode') return rate[k] >= 0;
			return v[k] < low - diodeDrop - slack || v[k] > bus + diodeDrop + slack;
		});
		if (!contradiction) return [...holds];
	}
	throw new Error(`no state of the diodes fits at ${t} s`);
}

/** With nothing conducting, two diodes start together: those of the largest and the smallest EMF. */
function pair({ e }: PlainEquations, holds: Holds): Holds {
	const both = [...holds] as [Hold, Hold, Hold];
	both[e.indexOf(Math.max(...e)) as 0] = 'high diode';
	both[e.indexOf(Math.min(...e)) as 0] = 'low diode';
	return both;
}

/** How far the EMFs are from driving a current through two diodes, V. */
function pairMargin(equations: PlainEquations, t: number, i: readonly number[]): number {
	equations.terminals(t, i, ['open', 'open', 'open']);
	const { e, bus, low } = equations;
	return bus - low + 2 * equations.drive.inverter.diodeDrop - (Math.max(...e) - Math.min(...e));
}

/** One way in which the state of the diodes may end: positive while it holds, zero at the event. */
export interface Margin {
	/** Phase whose diode stops or starts; −1: two start together. */
	readonly phase: number;
	/** What it is to become. */
	readonly to: Hold;
}

/** The margins to be watched while the terminals are so held. */
export function margins(holds: Holds): Margin[] {
	if (holds.every((hold) => hold === 'open')) return [{ phase: -1, to: 'open' }];
	return holds.flatMap((hold, phase): Margin[] => {
		if (isDiode(hold)) return [{ phase, to: 'open' }];
		if (hold !== 'open') return [];
		return [
			{ phase, to: 'low diode' },
			{ phase, to: 'high diode' },
		];
	});
}

/** Value of a margin, V or A, for currents `i` at time t. */
export function marginAt(
	equations: PlainEquations,
	{ phase, to }: Margin,
	t: number,
	i: readonly number[],
	holds: Holds,
): number {
	if (phase < 0) return pairMargin(equations, t, i);
	if (to === 'open') return holds[phase as 0] === 'low diode' ? (i[phase] as number) : -(i[phase] as number);
	equations.terminals(t, i, holds);
	const { v, low, bus } = equations;
	const { diodeDrop } = equations.drive.inverter;
	return to === 'low diode' ? v[phase as 0] - (low - diodeDrop) : bus + diodeDrop - v[phase as 0];
}

/** Voltages that differ by less (V) are equal: rounding of sums of tens of volts is far below. */
const slack = 1e-10;

const states: readonly Hold[] = ['open', 'low diode', 'high diode'];

/** All states of n free terminals, those with fewest diodes first. */
const trials: readonly (readonly Hold[][])[] = [0, 1, 2].map((n) => {
	let all: Hold[][] = [[]];
	for (let place = 0; place < n; place++) all = all.flatMap((some) => states.map((state) => [...some, state]));
	return all.sort((a, b) => a.filter(isDiode).length - b.filter(isDiode).length);
});
