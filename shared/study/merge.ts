import { choiceNames } from '../drive/drive.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { angleBins } from './angle-histogram.ts';
import { type Columns, countNames, emptyColumns, measureNames, mostCounted, placeColumns } from './columns.ts';
import type { ShardResult, UnitFailure } from './run-shard.ts';

/** What became of each unit asked for. */
export const unitStates = { pending: 0, finished: 1, failed: 2 } as const;

/** A whole study's columns, by unit index. */
export interface StudyColumns {
	readonly units: number;
	readonly points: number;
	/** One of `unitStates` for each unit. */
	readonly states: Uint8Array<ArrayBuffer>;
	readonly columns: Columns;
	/** [point][choice][bin] */
	readonly histograms: Float64Array<ArrayBuffer>;
	/** In the order they came in. */
	readonly failures: UnitFailure[];
}

/** Columns for so many units, nothing of which is done yet. @param most largest number that a count has to hold */
export function emptyStudy(units: number, points: number, most?: number): StudyColumns {
	const cellsPerUnit = points * choiceNames.length;
	return {
		units,
		points,
		states: new Uint8Array(units),
		columns: emptyColumns(units * cellsPerUnit, most),
		histograms: new Float64Array(cellsPerUnit * angleBins.count),
		failures: [],
	};
}

/** Columns for a scenario's units, as narrow as its runs allow. */
export const studyFor = (scenario: Scenario, units: number): StudyColumns =>
	emptyStudy(units, scenario.points.length, mostCounted(scenario));

/** Bytes that a study of a scenario takes: in any case, and a unit more. */
export function studyBytes(scenario: Scenario): { readonly fixed: number; readonly unit: number } {
	const { columns, histograms, states } = studyFor(scenario, 1);
	const unit = [states, ...Object.values(columns)].reduce((sum, { byteLength }) => sum + byteLength, 0);
	return { fixed: histograms.byteLength, unit };
}

/** Units 0 up to `units` of a study of which no later one was run; shares its memory. */
export function studyUpTo(study: StudyColumns, units: number): StudyColumns {
	const cells = units * study.points * choiceNames.length;
	const columns = Object.fromEntries([
		...countNames.map((name) => [name, study.columns[name].subarray(0, cells)]),
		...measureNames.map((name) => [name, study.columns[name].subarray(0, cells)]),
	]) as Columns;
	return { ...study, units, states: study.states.subarray(0, units), columns };
}

/** A study's units with room for those up to `units`. */
export function studyGrownTo(study: StudyColumns, scenario: Scenario, units: number): StudyColumns {
	const grown = studyFor(scenario, units);
	placeColumns(grown.columns, study.columns, 0);
	grown.histograms.set(study.histograms);
	grown.states.set(study.states);
	grown.failures.push(...study.failures);
	return grown;
}

/** Lays a shard into its place. Shards may come in any order, each once. */
export function mergeShard(study: StudyColumns, shard: ShardResult): void {
	placeColumns(study.columns, shard.columns, shard.from * study.points * choiceNames.length);
	// counts are whole numbers far below 2⁵³: their sum is exact in any order
	for (let bin = 0; bin < shard.histograms.length; bin += 1) {
		const count = shard.histograms[bin] as number;
		if (count > 0) study.histograms[bin] = (study.histograms[bin] as number) + count;
	}
	study.states.fill(unitStates.finished, shard.from, shard.to);
	for (const failure of shard.failures) study.states[failure.unit] = unitStates.failed;
	study.failures.push(...shard.failures);
}

/** Units from `from` up to `to` that nothing has become of yet, as stretches without a gap. */
export function pendingStretches(
	{ states }: StudyColumns,
	from: number,
	to: number,
): { readonly from: number; readonly to: number }[] {
	const found: { from: number; to: number }[] = [];
	for (let unit = from; unit < to; unit += 1) {
		if (states[unit] !== unitStates.pending) continue;
		const last = found.at(-1);
		if (last?.to === unit) last.to = unit + 1;
		else found.push({ from: unit, to: unit + 1 });
	}
	return found;
}

/** Indices of the units that were simulated, rising. */
export function finishedUnits({ states }: Pick<StudyColumns, 'states'>): Uint32Array {
	const units = new Uint32Array(states.length);
	let found = 0;
	for (let unit = 0; unit < states.length; unit += 1) {
		if (states[unit] === unitStates.finished) {
			units[found] = unit;
			found += 1;
		}
	}
	return units.subarray(0, found);
}

/** Units up to the last one of which anything has become: in a study cut short millions of pending ones may follow. */
export function begunUnits({ units, states }: Pick<StudyColumns, 'units' | 'states'>): number {
	let begun = units;
	while (begun > 0 && states[begun - 1] === unitStates.pending) begun -= 1;
	return begun;
}

/** The units that could not be simulated, by index: shards come in any order. */
export const failuresInOrder = ({ failures }: Pick<StudyColumns, 'failures'>): UnitFailure[] =>
	[...failures].sort((one, other) => one.unit - other.unit);

/** Counts units whose worker failed twice; nothing of them was measured. */
export function failUnits(study: StudyColumns, from: number, to: number, message: string): void {
	study.states.fill(unitStates.failed, from, to);
	for (let unit = from; unit < to; unit += 1) study.failures.push({ unit, message });
}
