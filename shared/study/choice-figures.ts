import { choiceNames } from '../drive/drive.ts';
import { orderStatisticInterval } from '../statistics/order-statistic-interval.ts';
import { quantileOfSorted } from '../statistics/quantile.ts';
import { type EventKind, eventKinds } from '../words/names.ts';
import { angleBins } from './angle-histogram.ts';
import { type CountName, kindCountNames, kindSumNames, type MeasureName } from './columns.ts';
import { computedRate } from './computed-rate.ts';
import type { StudyColumns } from './merge.ts';
import { pooledQuantile } from './pooled-quantile.ts';
import { rateFigure } from './rate-figure.ts';
import type { ChoiceFigures } from './result.ts';

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
	const { lowest, highest } = extremes(place);
	const unitErrors = unitValues(place, 'unitError').sort();
	const bounds = (share: number): readonly [number, number] | null => {
		const { low, high, ranks } = orderStatisticInterval(unitErrors, share, level);
		return ranks.low === 0 || ranks.high > unitErrors.length ? null : [low, high];
	};
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
		unitError: {
			median: quantileOfSorted(unitErrors, 0.5),
			q95: quantileOfSorted(unitErrors, 0.95),
			medianInterval: bounds(0.5),
			q95Interval: bounds(0.95),
		},
		computed: computedRates(place),
		rates: perKind((kind) => rateFigure(unitValues(place, kind), unitValues(place, 'sectors'), place)),
		causes: { freewheel: count('freewheel'), noise: count('noise'), threshold: count('threshold') },
		lost: count('lost'),
		runs,
		meanTorque: total('torqueSum') / runs,
		torqueNotReached: count('torqueNotReached'),
		sectorMeans: kindSumNames.map((name, kind) => total(name) / count(kindCountNames[kind as 0])),
	};
}

/** Rates from computed chances; null where a unit has none. */
function computedRates(place: Place): ChoiceFigures['computed'] {
	const chances = eventKinds.map((kind) => unitValues(place, `${kind}Chance`));
	if (chances.some((values) => values.some((value) => value < 0))) return null;
	const all = new Float64Array(place.finished.length);
	for (const values of chances)
		for (let i = 0; i < all.length; i += 1) all[i] = (all[i] as number) + (values[i] as number);
	const sectors = unitValues(place, 'sectors');
	const { finished: units, sectorsPerHour, level } = place;
	const figures = (values: Float64Array) => computedRate(values, sectors, { units, sectorsPerHour, level });
	return {
		...perKind((_, place) => figures(chances[place] as Float64Array)),
		all: figures(all),
	};
}

const perKind = <T>(make: (kind: EventKind, place: number) => T) =>
	Object.fromEntries(eventKinds.map((kind, place) => [kind, make(kind, place)])) as Record<EventKind, T>;

/** Where the finished units lie in the columns. */
export function cellsOf({
	study,
	finished,
	point,
	choice,
}: Pick<Place, 'study' | 'finished' | 'point' | 'choice'>): Uint32Array {
	const cellsPerUnit = study.points * choiceNames.length;
	const cells = new Uint32Array(finished.length);
	// plain loops: Uint32Array.from with a callback takes ten times as long, and partial figures are made while one waits
	for (let i = 0; i < cells.length; i += 1) {
		cells[i] = (finished[i] as number) * cellsPerUnit + point * choiceNames.length + choice;
	}
	return cells;
}

/** A column's values at this point and choice, one for each finished unit. */
export function unitValues(
	{ study, finished, point, choice }: Pick<Place, 'study' | 'finished' | 'point' | 'choice'>,
	name: CountName | MeasureName,
): Float64Array {
	const column = study.columns[name];
	const cellsPerUnit = study.points * choiceNames.length;
	const first = point * choiceNames.length + choice;
	const values = new Float64Array(finished.length);
	for (let i = 0; i < values.length; i += 1) {
		values[i] = column[(finished[i] as number) * cellsPerUnit + first] as number;
	}
	return values;
}

/** The counted angle errors of one point and choice. */
export function poolHistogram(study: StudyColumns, point: number, choice: number): Float64Array {
	const place = point * choiceNames.length + choice;
	return study.histograms.subarray(place * angleBins.count, (place + 1) * angleBins.count);
}

/** A column's sum over the finished units, in their order, without a copy of a million values. */
function sumOf({ study, finished, point, choice }: Place, name: CountName | MeasureName): number {
	const column = study.columns[name];
	const cellsPerUnit = study.points * choiceNames.length;
	const first = point * choiceNames.length + choice;
	let total = 0;
	for (let i = 0; i < finished.length; i += 1) {
		total += column[(finished[i] as number) * cellsPerUnit + first] as number;
	}
	return total;
}

function extremes(place: Place): { readonly lowest: number; readonly highest: number } {
	const lows = unitValues(place, 'lowestError');
	const highs = unitValues(place, 'highestError');
	let lowest = Number.POSITIVE_INFINITY;
	let highest = Number.NEGATIVE_INFINITY;
	for (let i = 0; i < lows.length; i += 1) {
		lowest = Math.min(lowest, lows[i] as number);
		highest = Math.max(highest, highs[i] as number);
	}
	return { lowest, highest };
}
