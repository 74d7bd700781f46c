import { choiceNames } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { Interval } from '../statistics/interval.ts';
import { Moments } from '../statistics/moments.ts';
import {
	interactionShare,
	type PickFreeze,
	sensitivityIndices,
	sensitivityIntervals,
} from '../statistics/sensitivity-indices.ts';
import { readingGridSpread } from '../study/reading-grid.ts';
import type { Provenance } from '../study/result.ts';
import { drivesPerRow } from './drive-design.ts';
import { figuresPerRun, sectorKinds } from './mean-errors.ts';
import { type ChoiceOrigins, fewestRows, type OriginsResult } from './origins-result.ts';
import { originsSentence } from './origins-sentence.ts';
import type { PartCorrelations } from './part-correlations.ts';
import type { SpreadGroup } from './spread-groups.ts';

export interface OriginsFigures {
	readonly scenario: Scenario;
	readonly point: number;
	/** All groups; those that vary make the design's columns, in their order. */
	readonly groups: readonly SpreadGroup[];
	/** [row][A, B, each group][choice][kind], degrees. */
	readonly figures: Float64Array;
	/** For each drive, 1 where it was finished. */
	readonly done: Uint8Array;
	readonly correlations: PartCorrelations | null;
	readonly provenance: Provenance;
}

type Design = Pick<OriginsFigures, 'groups' | 'figures' | 'done'>;

/** Widest interval, as a share of the variance, with which a share stands. */
const standing = 0.02;

/** Enough for limits, and a third of the room in a file that all digits would take. */
const squareDigits = 4;

/** Whether more rows would hardly change a share as it is told: for both choices each is known to about one per cent. */
export function sharesStand(design: Design, level: number): boolean {
	return choiceNames.every((_, choice) => {
		const { groups } = choiceOrigins(design, level, choice);
		return groups.every(({ first, total }) => [first, total].every(({ low, high }) => high - low <= standing));
	});
}

/** The shares from the figures of a pick-freeze design's drives. */
export function summariseOrigins(given: OriginsFigures): OriginsResult {
	const { scenario, point, groups, figures, correlations, provenance } = given;
	const width = drivesPerRow(groups.filter(({ varies }) => varies).length);
	const { name = '', values: conditions = {} } = scenario.points[point] ?? {};
	const choices = perChoice((_, choice) => choiceOrigins(given, provenance.level, choice));
	return {
		format: 'anglespread-origins',
		formatVersion: 2,
		provenance,
		point: name,
		conditions,
		rows: figures.length / figuresPerRun / width,
		drivesPerRow: width,
		choices,
		correlations,
		sentence: originsSentence({
			point: name,
			level: provenance.level,
			choices,
			gridSpread: readingGridSpread({ ...scenario.values, ...conditions }),
		}),
	};
}

function choiceOrigins({ groups, figures, done }: Design, level: number, choice: number): ChoiceOrigins {
	const moving = groups.filter(({ varies }) => varies);
	const still = groups.filter(({ varies }) => !varies).map(({ name }) => name);
	const width = drivesPerRow(moving.length);
	const finished = Array.from({ length: done.length / width }, (_, row) => row).filter((row) =>
		done.subarray(row * width, (row + 1) * width).every((state) => state === 1),
	);
	const figure = (row: number, place: number, kind: number): number =>
		figures[(row * width + place) * figuresPerRun + choice * sectorKinds + kind] as number;
	const kinds = Array.from({ length: sectorKinds }, (_, kind) => kind);
	const places = Array.from({ length: width }, (_, place) => place);
	const rows = finished.filter((row) =>
		places.every((place) => kinds.every((kind) => Number.isFinite(figure(row, place, kind)))),
	);
	const column = (place: number, kind: number): Float64Array =>
		Float64Array.from(rows, (row) => figure(row, place, kind));
	const base = kinds.map((kind) => ({ a: column(0, kind), b: column(1, kind) }));
	const moments = base.map(({ a, b }) => {
		const both = new Moments();
		for (const value of a) both.add(value);
		for (const value of b) both.add(value);
		return both;
	});
	/** What a row's two drives add to the square of the spread. */
	const squareOf = (row: number): number => {
		let sum = 0;
		for (const [kind, { mean, count }] of moments.entries()) {
			const [fromA, fromB] = [figure(row, 0, kind) - mean, figure(row, 1, kind) - mean];
			sum += ((fromA * fromA + fromB * fromB) / 2) * (count / (count - 1));
		}
		return sum / sectorKinds;
	};
	const squares = new Array<number>(done.length / width).fill(Number.NaN);
	for (const row of rows) squares[row] = Number(squareOf(row).toPrecision(squareDigits));
	const designed = moving.map((_, group) =>
		base.map((one, kind): PickFreeze => ({ ...one, mixed: column(2 + group, kind) })),
	);
	const isEnough = rows.length >= fewestRows;
	const spread = Math.sqrt(moments.reduce((sum, { variance }) => sum + variance, 0) / sectorKinds);
	// what varies alone makes all of the spread: nothing to estimate
	const isAlone = moving.length === 1 && isEnough && spread > 0;
	const shares = moving.map(({ id, name }, group) => {
		if (isAlone)
			return { id, name, first: whole, total: whole, kinds: { first: kinds.map(() => 1), total: kinds.map(() => 1) } };
		const designs = designed[group] as readonly PickFreeze[];
		const { first, total } = sensitivityIndices(designs);
		const intervals = isEnough ? sensitivityIntervals(designs, level) : null;
		const alone = designs.map((design) => sensitivityIndices(design));
		return {
			id,
			name,
			first: { value: first, ...(intervals?.first ?? unknown) },
			total: { value: total, ...(intervals?.total ?? unknown) },
			kinds: { first: alone.map((one) => one.first), total: alone.map((one) => one.total) },
		};
	});
	return {
		rows: rows.length,
		rowsWithout: finished.length - rows.length,
		spread,
		squares,
		kinds: moments.map(({ mean, sd }) => ({ mean, sd })),
		groups: shares.sort((one, other) => other.total.value - one.total.value),
		still,
		together: 1 - shares.reduce((sum, { first }) => sum + first.value, 0),
		togetherInterval: isEnough && moving.length > 1 ? limitsOf(interactionShare(designed, level)) : null,
	};
}

const limitsOf = ({ low, high }: Interval): readonly [number, number] => [low, high];

const whole = { value: 1, low: 1, high: 1 };
const unknown = { low: Number.NaN, high: Number.NaN };
