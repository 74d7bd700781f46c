import { type Cause, causeNames, type RunRecord } from '../drive/drive.ts';
import { medianUnbiasedQuantile } from '../statistics/median-unbiased-quantile.ts';
import type { EventKind } from '../words/names.ts';

/** How one run of a drive went with one sensing choice. */
export interface DriveOutcome {
	readonly measured: number;
	/** Mean angle error; the required share's quantile of its size; its largest size. Degrees, NaN without a sector. */
	readonly meanError: number;
	readonly judgedError: number;
	readonly largestError: number;
	/** Sizes of all angle errors in rising order, degrees. */
	readonly angles: Float64Array;
	readonly events: Readonly<Record<EventKind, number>>;
	/** Computed chance of these in an operating hour at such sectors; NaN without a sector, and where it is not computed. */
	readonly perHour: number;
	readonly causes: Readonly<Record<Cause, number>>;
	/** The first false or missed crossing: sector counted from t = 0, and its crossing error, degrees (NaN: missed). */
	readonly first: { readonly sector: number; readonly kind: EventKind; readonly error: number } | null;
	readonly lost: boolean;
	readonly torqueNotReached: boolean;
	/** N·m. */
	readonly meanTorque: number;
}

export interface OutcomeRules {
	/** Number of the first measured sector. */
	readonly firstSector: number;
	/** Degrees. */
	readonly falseMargin: number;
	/** Share of the sectors that `judgedError` bounds. */
	readonly quantile: number;
	readonly sectorsPerHour: number;
}

export function driveOutcome(
	run: RunRecord,
	{ firstSector, falseMargin, quantile, sectorsPerHour }: OutcomeRules,
): DriveOutcome {
	const events: Record<EventKind, number> = { early: 0, late: 0, missed: 0 };
	const causes: Record<Cause, number> = { freewheel: 0, noise: 0, threshold: 0 };
	let first: DriveOutcome['first'] = null;
	for (let i = 0; i < run.measured; i++) {
		const error = run.crossings[i] as number;
		const kind = eventKind(error, falseMargin);
		if (kind === null) continue;
		events[kind] += 1;
		const cause = causeNames[(run.causes[i] as number) - 1];
		if (cause !== undefined) causes[cause] += 1;
		first ??= { sector: firstSector + i, kind, error };
	}
	const sizes = run.errors.map(Math.abs).sort();
	return {
		measured: run.measured,
		meanError: run.errors.reduce((sum, one) => sum + one, 0) / run.measured,
		judgedError: sizes.length > 0 ? medianUnbiasedQuantile(sizes, quantile) : Number.NaN,
		largestError: sizes.at(-1) ?? Number.NaN,
		angles: sizes,
		events,
		perHour: chanceOfWrong(run) * sectorsPerHour,
		causes,
		first,
		lost: run.lost,
		torqueNotReached: run.torqueNotReached,
		meanTorque: run.meanTorque,
	};
}

/** Mean chance of an early, late or missed crossing in a measured sector. */
function chanceOfWrong({ chances, measured }: RunRecord): number {
	if (chances === undefined) return Number.NaN;
	const sum = (all: Float64Array): number => all.reduce((one, other) => one + other, 0);
	return (sum(chances.early) + sum(chances.late) + sum(chances.missed)) / measured;
}

/** What a crossing error (degrees; NaN where the sector timed out) counts as; null where it is in order. */
export function eventKind(error: number, falseMargin: number): EventKind | null {
	if (Number.isNaN(error)) return 'missed';
	if (error < -falseMargin) return 'early';
	return error > falseMargin ? 'late' : null;
}

/** False and missed crossings together. */
export const falseCrossings = ({ events }: DriveOutcome): number => events.early + events.late + events.missed;
