import { choiceNames } from '../drive/drive.ts';
import { angleBins } from '../study/angle-histogram.ts';
import {
	type Columns,
	type CountName,
	columnBytes,
	countNames,
	type MeasureName,
	measureNames,
} from '../study/columns.ts';
import { begunUnits, type StudyColumns } from '../study/merge.ts';
import type { UnitFailure } from '../study/run-shard.ts';
import { fromBase64, toBase64 } from './base64.ts';
import { type Check, count, list, object, text } from './shape.ts';

/**
 * A study's units as a file keeps them. Bytes are in base64, numbers with the
 * low byte first: one byte of state a unit (`unitStates`), columns as
 * study/columns.ts lays them out, counts in 32 bits, measures as 64-bit floats.
 */
export interface StoredUnits {
	/** Units that were begun, those after the last one done left out. */
	readonly units: number;
	readonly states: string;
	readonly columns: Readonly<Record<CountName | MeasureName, string>>;
	/** Angle errors counted in bins of study/angle-histogram.ts, [point][choice]: the counts from bin `from` on. */
	readonly histograms: readonly { readonly from: number; readonly counts: readonly number[] }[];
}

/** Bytes of columns that a file may hold; as base64 they are a third more, and a text ends at 512 MB. */
const mostBytes = 250e6;

const bytesPerCell = 4 * countNames.length + 8 * measureNames.length;
const longest = 2 * mostBytes;

export const storedUnitsShape: Check<StoredUnits> = object<StoredUnits>({
	units: count,
	states: text(longest),
	columns: object(
		Object.fromEntries([...countNames, ...measureNames].map((name) => [name, text(longest)])) as Record<
			CountName | MeasureName,
			Check<string>
		>,
	),
	histograms: list(object({ from: count, counts: list(count, angleBins.count) }), 1000),
});

/** Units that a file holds beside the figures at most. @param points operating points */
export const mostUnitsInFile = (points: number): number =>
	Math.floor(mostBytes / (points * choiceNames.length * bytesPerCell));

/** Whether a file holds a study's units beside its figures. */
export const fitsFile = (study: Pick<StudyColumns, 'units' | 'points' | 'states'>): boolean =>
	begunUnits(study) <= mostUnitsInFile(study.points);

/** Null where they are too many for a file. */
export function storeUnits(study: StudyColumns): StoredUnits | null {
	if (!fitsFile(study)) return null;
	const units = begunUnits(study);
	const cells = units * study.points * choiceNames.length;
	const bytesOf = (name: CountName | MeasureName): Uint8Array => columnBytes(study.columns[name].subarray(0, cells));
	return {
		units,
		states: toBase64(study.states.subarray(0, units)),
		columns: Object.fromEntries(
			[...countNames, ...measureNames].map((name) => [name, toBase64(bytesOf(name))]),
		) as StoredUnits['columns'],
		histograms: Array.from({ length: study.points * choiceNames.length }, (_, place) => {
			const counts = study.histograms.subarray(place * angleBins.count, (place + 1) * angleBins.count);
			const from = Math.max(
				0,
				counts.findIndex((one) => one > 0),
			);
			return { from, counts: Array.from(counts.subarray(from, counts.findLastIndex((one) => one > 0) + 1)) };
		}),
	};
}

/** The units of a file; null where their columns do not fit together. */
export function restoreUnits(
	stored: StoredUnits,
	points: number,
	failures: readonly UnitFailure[],
): StudyColumns | null {
	const { units } = stored;
	const cells = units * points * choiceNames.length;
	const states = fromBase64(stored.states, units);
	const counts = countNames.map((name) => [name, fromBase64(stored.columns[name], 4 * cells)] as const);
	const measures = measureNames.map((name) => [name, fromBase64(stored.columns[name], 8 * cells)] as const);
	const histograms = restoreHistograms(stored, points * choiceNames.length);
	const columns = Object.fromEntries([
		...counts.map(([name, bytes]) => [name, bytes && new Uint32Array(bytes.buffer)]),
		...measures.map(([name, bytes]) => [name, bytes && new Float64Array(bytes.buffer)]),
	]) as Columns;
	if (!states || !histograms || Object.values(columns).includes(null as never)) return null;
	return { units, points, states, columns, histograms, failures: [...failures] };
}

function restoreHistograms({ histograms }: StoredUnits, places: number): Float64Array<ArrayBuffer> | null {
	const whole = new Float64Array(places * angleBins.count);
	if (histograms.length !== places) return null;
	for (const [place, { from, counts }] of histograms.entries()) {
		if (from + counts.length > angleBins.count) return null;
		whole.set(counts, place * angleBins.count + from);
	}
	return whole;
}
