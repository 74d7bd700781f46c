import type { Scenario } from '../scenario/scenario.ts';
import { eventKinds } from '../words/names.ts';
import { type Columns, cellOf } from './columns.ts';
import { sectorsPerHour } from './sectors-per-hour.ts';

/** What must hold, as the scenario states it. */
export interface Requirement {
	/** Degrees, and the share of a unit's commutations that must keep within. */
	readonly angleLimit: number;
	readonly quantile: number;
	/** Early, late and missed crossings together in an operating hour. */
	readonly crossingsPerHour: number;
	/** Share of units that must pass every point, and the confidence it must be shown with. */
	readonly share: number;
	readonly confidence: number;
}

export function requirementOf({ values }: Pick<Scenario, 'values'>): Requirement {
	const value = (name: keyof Requirement): number => values[`requirement.${name}`] as number;
	return {
		angleLimit: value('angleLimit'),
		quantile: value('quantile'),
		crossingsPerHour: value('crossingsPerHour'),
		share: value('share'),
		confidence: value('confidence'),
	};
}

/** Why a unit does not pass a point; the first that applies. */
export const shortcomings = ['lock', 'torque', 'angle', 'rate'] as const;
export type Shortcoming = (typeof shortcomings)[number];

export interface UnitJudge {
	/** Why the finished unit in row `unit` of the columns does not pass a point; null where it does. */
	shortcoming(columns: Columns, unit: number, point: number, choice: number): Shortcoming | null;
	/** Whether it passes that point. */
	passesPoint(columns: Columns, unit: number, point: number, choice: number): boolean;
	/** Whether it passes every operating point. */
	passes(columns: Columns, unit: number, choice: number): boolean;
}

/**
 * Judges finished units by a scenario's requirement: over all its starts at a
 * point a unit must keep lock, reach the torque, have the required share of its
 * commutations within the angle limit, and its computed rate (the counted one
 * where none can be computed) within the hourly limit at the point's nominal speed.
 */
export function unitJudge(scenario: Pick<Scenario, 'values' | 'points'>): UnitJudge {
	const { angleLimit, crossingsPerHour } = requirementOf(scenario);
	const { points } = scenario;
	/** Crossings that a sector may hold, point by point. */
	const perSector = points.map((point) => crossingsPerHour / sectorsPerHour(scenario, point));

	const shortcoming: UnitJudge['shortcoming'] = (columns, unit, point, choice) => {
		const cell = cellOf(points.length, unit, point, choice);
		if ((columns.lost[cell] as number) > 0) return 'lock';
		if ((columns.torqueNotReached[cell] as number) > 0) return 'torque';
		if (!((columns.judgedError[cell] as number) <= angleLimit)) return 'angle';
		return crossingsIn(columns, cell) <= (perSector[point] as number) * (columns.sectors[cell] as number)
			? null
			: 'rate';
	};
	const passesPoint: UnitJudge['passesPoint'] = (...place) => shortcoming(...place) === null;
	return {
		shortcoming,
		passesPoint,
		passes: (columns, unit, choice) => points.every((_, point) => passesPoint(columns, unit, point, choice)),
	};
}

const chanceColumns = eventKinds.map((kind) => [kind, `${kind}Chance`] as const);

/** Early, late and missed crossings to be expected in a cell's sectors: computed, else as counted. */
export function crossingsIn(columns: Columns, cell: number): number {
	let sum = 0;
	for (const [kind, chanceOf] of chanceColumns) {
		const chance = columns[chanceOf][cell] as number;
		sum += chance >= 0 ? chance : (columns[kind][cell] as number);
	}
	return sum;
}
