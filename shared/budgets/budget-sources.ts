import { type DriveUniforms, middleUniforms } from '../origins/drive-design.ts';
import { partSlotWords } from '../origins/slot-words.ts';
import { partVaries } from '../origins/spread-groups.ts';
import type { Tolerance } from '../parameters/parameter.ts';
import { parameter } from '../parameters/parameters.ts';
import { deviate } from '../sampling/deviate.ts';
import { partSlots } from '../sampling/draw-parts.ts';
import { startSlots } from '../sampling/draw-start.ts';
import type { Scenario } from '../scenario/scenario.ts';

/** One independent cause of spread in a budget: a part, what a lot has in common, or a condition. */
export interface BudgetSource {
	readonly id: string;
	readonly name: string;
	/** Index into `partSlots` or `startSlots`. */
	readonly slot: number;
	readonly of: 'parts' | 'start';
	/** Standard deviation over the half-width of its limits. */
	readonly sdInHalfWidths: number;
}

/** Everything with limits that varies at the point: a phase has none, so ringing's is no source. */
export function budgetSources(scenario: Scenario, point: number): BudgetSource[] {
	const ranges = scenario.points[point]?.ranges ?? {};
	const parts = partSlots.flatMap(({ id, source }, slot): BudgetSource[] => {
		const tolerance = scenario.tolerances[id];
		if (!tolerance || !partVaries(scenario, slot)) return [];
		const width = source === 'lot' ? tolerance.lot : tolerance.mismatch;
		// a gap belongs to what is picked out part by part (draw-parts.ts)
		const isWhole = source === 'lot' && tolerance.distribution === 'gapped' && tolerance.mismatch > 0;
		const drawn: Tolerance = isWhole ? { ...tolerance, distribution: 'normal' } : tolerance;
		return [{ id, name: partSlotWords(slot), slot, of: 'parts', sdInHalfWidths: sdInHalfWidths(drawn, width) }];
	});
	const conditions = startSlots.flatMap((id, slot): BudgetSource[] =>
		(ranges[id]?.halfWidth ?? 0) > 0
			? [{ id, name: parameter(id).name, slot, of: 'start', sdInHalfWidths: 1 / Math.sqrt(3) }]
			: [],
	);
	return [...parts, ...conditions];
}

/**
 * The scenario in which a part's base uniform 0, ½ and 1 stand for its lower
 * limit, its middle and its upper limit, whatever its distribution. The middle
 * is the nominal value; of measured parts, which have no other, the median.
 */
export function scenarioOfLimits(scenario: Scenario): Scenario {
	const tolerances = Object.entries(scenario.tolerances).map(([id, tolerance]): [string, Tolerance] => {
		const { measured = [] } = tolerance;
		if (tolerance.distribution !== 'measured') return [id, { ...tolerance, distribution: 'uniform' }];
		const sorted = [...measured].sort((one, other) => one - other);
		const three = [sorted[0], sorted[Math.floor(sorted.length / 2)], sorted.at(-1)] as number[];
		return [id, { ...tolerance, measured: three }];
	});
	return { ...scenario, tolerances: Object.fromEntries(tolerances) };
}

/** The drive with the sources at the sides given, −1 lower limit, 0 middle, +1 upper limit; all else in the middle. */
export function driveAtSides(sources: readonly BudgetSource[], sides: readonly (-1 | 0 | 1)[]): DriveUniforms {
	const drive = middleUniforms();
	sources.forEach(({ of, slot }, place) => {
		const side = sides[place] ?? 0;
		// uniforms lie below 1
		drive[of][slot] = side === 0 ? 0.5 : side < 0 ? 0 : 1 - 2 ** -53;
	});
	return drive;
}

/** The middle drive, then for each source the drive with it alone at its lower and at its upper limit. */
export function oneAtATime(sources: readonly BudgetSource[]): DriveUniforms[] {
	const alone = (place: number, side: -1 | 1): DriveUniforms =>
		driveAtSides(
			sources,
			sources.map((_, other) => (other === place ? side : 0)),
		);
	return [driveAtSides(sources, []), ...sources.flatMap((_, place) => [alone(place, -1), alone(place, 1)])];
}

/** By the midpoint rule over the distribution's inverse, good to a part in ten thousand. */
function sdInHalfWidths(tolerance: Tolerance, width: number): number {
	const steps = 4096;
	let sum = 0;
	let squares = 0;
	for (let step = 0; step < steps; step += 1) {
		const deviation = deviate(tolerance, width, (step + 0.5) / steps);
		sum += deviation;
		squares += deviation * deviation;
	}
	const { measured } = tolerance;
	const halfWidth =
		tolerance.distribution === 'measured' && measured ? (Math.max(...measured) - Math.min(...measured)) / 2 : width;
	return halfWidth > 0 ? Math.sqrt(Math.max(0, squares / steps - (sum / steps) * (sum / steps))) / halfWidth : 0;
}
