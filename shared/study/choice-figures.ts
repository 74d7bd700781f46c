import { choiceNames } from '../drive/drive.ts';
import { type EventKind, eventKinds } from '../words/names.ts';
import { angleBins } from './angle-histogram.ts';
import { type CountName, kindCountNames, kindSumNames, type MeasureName } from './columns.ts';
import { computedRate } from './computed-rate.ts';
import type { StudyColumns } from './merge.ts';
import { pooledQuantile } from './pooled-quantile.ts';
import { rateFigure } from './rate-figure.ts';
import type { ChoiceFigures } from './result.ts';
import { unitErrorFigures } from './unit-error-figures.ts';

/** Shares of all commutations whose angle errors are quoted. */
const quotedShares = [0.005, 0.025, 0.5, 0.975, 0.995];

interface Place {
	readonly study: StudyColumns;
	/** Indices of the finished units, rising. */
	readonly finished: ArrayLike<number>;
	readonly point: number;
	/** Index into choiceNames. */
	readonly choice: number;
	/** Sectors in an operating hour at the point's nominal speed. */
	readonly sectorsPerHour: number;
	readonly level: number;
}

/** One choice's figures at one point that its own columns give. Sums run in the order of the units. */
export function choiceFigures(place: Place): Omit<ChoiceFigures, 'histogram' | 'passing' | 'worst' | 'unitFigures'> {
	const { study, finished, level } = place;
	const count = (name: CountName): number => sumOf(place, name);
	const total = (name: MeasureName): number => sumOf(place, name);
	const sectors = count('sectors');
	const runs = count('runs');
	const mean = total('errorSum') / sectors;
	const { lowest } = extremes(place, 'lowestError');
	const { highest } = extremes(place, 'highestError');
	const unitSectors = unitValues(place, 'sectors');
	const room = new Float64Array(finished.length);
	const counts = poolHistogram(study, place.point, place.choice);
	const pooled = { counts, total: sectors, lowest, highest };
	return {
		units: finished.length,
		sectors,
		angleError: {
			mean,
			sd: Math.sqrt(Math.max(0, (total('errorSquares') - sectors * mean * mean) / (sectors - 1))),
			quantiles: Object.fromEntries(quotedShares.map((share) => [String(share), pooledQuantile(pooled, share)])),
			maxAbs: sectors > 0 ? Math.max(-lowest, highest) : Number.NaN,
		},
		unitError: unitErrorFigures(unitValues(place, 'unitError').sort(), level),
		computed: computedRates(place, unitSectors, room),
		rates: perKind((kind) => rateFigure(unitValues(place, kind, room), unitSectors, place)),
		causes: { freewheel: count('freewheel'), noise: count('noise'), threshold: count('threshold') },
		lost: count('lost'),
		runs,
		meanTorque: total('torqueSum') / runs,
		torqueNotReached: count('torqueNotReached'),
		sectorMeans: kindSumNames.map((name, kind) => total(name) / count(kindCountNames[kind as 0])),
	};
}

/** Rates from computed chances; null where a unit has none. */
function computedRates(
	place: Place,
	sectors: Float64Array,
	room: Float64Array<ArrayBuffer>,
): ChoiceFigures['computed'] {
	const { finished: units, sectorsPerHour, level } = place;
	// a unit without chances has −1 for each kind
	if (extremes(place, 'earlyChance').lowest < 0) return null;
	const figures = (values: Float64Array) => computedRate(values, sectors, { units, sectorsPerHour, level });
	const each = perKind((kind) => figures(unitValues(place, `${kind}Chance`, room)));
	return { ...each, all: figures(eventValues(place, 'computed', room)) };
}

const perKind = <T>(make: (kind: EventKind) => T) =>
	Object.fromEntries(eventKinds.map((kind) => [kind, make(kind)])) as Record<EventKind, T>;

/** Where unit 0 lies at this point and choice, and how far on each next unit. */
const cellsAt = ({ study, point, choice }: Pick<Place, 'study' | 'point' | 'choice'>) => ({
	first: point * choiceNames.length + choice,
	step: study.points * choiceNames.length,
});

/** Where the finished units lie in the columns. */
export function cellsOf({
	study,
	finished,
	point,
	choice,
}: Pick<Place, 'study' | 'finished' | 'point' | 'choice'>): Uint32Array {
	const { first, step } = cellsAt({ study, point, choice });
	const cells = new Uint32Array(finished.length);
	// plain loops: Uint32Array.from with a callback takes ten times as long, and partial figures are made while one waits
	for (let i = 0; i < cells.length; i += 1) cells[i] = (finished[i] as number) * step + first;
	return cells;
}

/** A column's values at this point and choice, one for each finished unit. @param values room for them; for a million units it is worth using again */
export function unitValues(
	{ study, finished, point, choice }: Pick<Place, 'study' | 'finished' | 'point' | 'choice'>,
	name: CountName | MeasureName,
	values = new Float64Array(finished.length),
): Float64Array<ArrayBuffer> {
	const column = study.columns[name];
	const { first, step } = cellsAt({ study, point, choice });
	for (let i = 0; i < values.length; i += 1) values[i] = column[(finished[i] as number) * step + first] as number;
	return values;
}

/**
 * Early, late and missed crossings together, of each finished unit: as counted, or as computed (below 0 where a unit has
 * no chances).
 *
 * @param part room for one kind's
 */
export function eventValues(
	place: Parameters<typeof unitValues>[0],
	by: 'counted' | 'computed',
	part = new Float64Array(place.finished.length),
): Float64Array<ArrayBuffer> {
	const all = new Float64Array(part.length);
	for (const kind of eventKinds) {
		unitValues(place, by === 'counted' ? kind : `${kind}Chance`, part);
		for (let i = 0; i < all.length; i += 1) all[i] = (all[i] as number) + (part[i] as number);
	}
	return all;
}

/** The counted angle errors of one point and choice. */
export function poolHistogram(study: StudyColumns, point: number, choice: number): Float64Array {
	const place = point * choiceNames.length + choice;
	return study.histograms.subarray(place * angleBins.count, (place + 1) * angleBins.count);
}

/** A column's sum over the finished units, in their order, without a copy of a million values. */
function sumOf(place: Place, name: CountName | MeasureName): number {
	const column = place.study.columns[name];
	const { first, step } = cellsAt(place);
	let total = 0;
	for (let i = 0; i < place.finished.length; i += 1)
		total += column[(place.finished[i] as number) * step + first] as number;
	return total;
}

/** Its least and its largest value; +∞ and −∞ without units. */
function extremes(place: Place, name: MeasureName): { readonly lowest: number; readonly highest: number } {
	const column = place.study.columns[name];
	const { first, step } = cellsAt(place);
	let lowest = Number.POSITIVE_INFINITY;
	let highest = Number.NEGATIVE_INFINITY;
	for (let i = 0; i < place.finished.length; i += 1) {
		const value = column[(place.finished[i] as number) * step + first] as number;
		lowest = Math.min(lowest, value);
		highest = Math.max(highest, value);
	}
	return { lowest, highest };
}
