import { choiceNames } from '../../../../shared/drive/drive.ts';
import type { NumberRecord, ParameterRecord, Tolerance } from '../../../../shared/parameters/parameter.ts';
import { parameters } from '../../../../shared/parameters/parameters.ts';
import type { Scenario } from '../../../../shared/scenario/scenario.ts';
import type { ChoiceFigures, PointResult } from '../../../../shared/study/result.ts';
import { count, degrees, percent, signedDegrees, span } from '../../../../shared/words/figures.ts';
import { choiceWords, eventKinds, eventWords } from '../../../../shared/words/names.ts';
import { onScale, quantity } from '../../../../shared/words/quantity.ts';
import { rateWords } from '../../../../shared/words/rate.ts';
import type { Reading } from '../services.ts';
import type { KeptRecord } from './kept-record.ts';

/** One figure of two results. */
export interface ComparedRow {
	readonly name: string;
	readonly first: string;
	readonly second: string;
}

export interface Comparison {
	/** Where what was asked differs. */
	readonly asked: readonly ComparedRow[];
	/** Figures, operating point by operating point. */
	readonly points: readonly { readonly name: string; readonly rows: readonly ComparedRow[] }[];
	readonly aside: string;
}

const none = '–';

/** Two kept results laid side by side: what was asked otherwise, and what came of it. */
export function compareRecords(first: KeptRecord, second: KeptRecord, read: (text: string) => Reading): Comparison {
	const [one, other] = [read(first.work.text), read(second.work.text)];
	const names = [...new Set([...first.result.points, ...second.result.points].map(({ name }) => name))];
	return {
		asked: [
			...differing('drives', first, second, ({ result }) => count(result.provenance.units.asked)),
			...differing('seed', first, second, ({ result }) => result.provenance.seed),
			...('scenario' in one && 'scenario' in other ? scenarioDifferences(one.scenario, other.scenario) : []),
		],
		points: names.map((name) => {
			const [a, b] = [first, second].map(({ result }) => result.points.find((point) => point.name === name));
			return { name, rows: pointRows(a, b) };
		}),
		aside:
			'Each figure stands with its own interval (95\u00a0% confidence). The two were not worked out drive by drive together: to see a change with its interval, pin one as the baseline and run the other.',
	};
}

function differing(
	name: string,
	first: KeptRecord,
	second: KeptRecord,
	read: (record: KeptRecord) => string,
): ComparedRow[] {
	const [a, b] = [read(first), read(second)];
	return a === b ? [] : [{ name, first: a, second: b }];
}

/** Every parameter that two scenarios state otherwise: value, tolerance, and what each point asks. */
function scenarioDifferences(one: Scenario, other: Scenario): ComparedRow[] {
	const rows: ComparedRow[] = [];
	const add = (name: string, first: string, second: string): void => {
		if (first !== second) rows.push({ name, first, second });
	};
	for (const record of parameters) {
		if (record.role !== 'condition')
			add(record.name, valueWords(record, one.values[record.id]), valueWords(record, other.values[record.id]));
		if (record.kind !== 'choice')
			add(
				`${record.name}, tolerance`,
				toleranceWords(record, one.tolerances[record.id]),
				toleranceWords(record, other.tolerances[record.id]),
			);
	}
	for (const name of new Set([...one.points, ...other.points].map((point) => point.name))) {
		const [a, b] = [one, other].map(({ points }) => points.find((point) => point.name === name));
		for (const record of parameters) {
			if (record.role !== 'condition') continue;
			add(
				`${record.name} at ${name}`,
				a ? valueWords(record, a.values[record.id]) : 'no such point',
				b ? valueWords(record, b.values[record.id]) : 'no such point',
			);
		}
	}
	return rows;
}

function valueWords(record: ParameterRecord, value: number | string | undefined): string {
	if (value === undefined) return none;
	return typeof value === 'string' || record.kind === 'choice' ? String(value) : quantity(value, record.unit, 12);
}

function toleranceWords(record: NumberRecord, tolerance: Tolerance | undefined): string {
	if (!tolerance) return none;
	const size = (value: number): string => onScale(tolerance.scale, value, record.unit, 12);
	if (tolerance.distribution === 'measured') return `${count(tolerance.measured?.length ?? 0)} measured`;
	return `${tolerance.distribution}, lot ${size(tolerance.lot)}, mismatch ${size(tolerance.mismatch)}`;
}

function pointRows(a: PointResult | undefined, b: PointResult | undefined): ComparedRow[] {
	const row = (name: string, read: (point: PointResult) => string): ComparedRow => ({
		name,
		first: a ? read(a) : none,
		second: b ? read(b) : none,
	});
	const ofChoice = (name: string, read: (figures: ChoiceFigures) => string): ComparedRow[] =>
		choiceNames.map((choice) => row(`${choiceWords[choice]}: ${name}`, (point) => read(point.choices[choice])));
	return [
		row('better choice', ({ paired }) => (paired.better === 'not shown' ? 'not shown' : choiceWords[paired.better])),
		row('median difference', ({ paired }) =>
			paired.medianDifference === null
				? none
				: signedDegrees(paired.medianDifference) + withInterval(paired.interval, signedDegrees),
		),
		...ofChoice(
			'1 drive in 20 exceeds',
			({ unitError }) => size(unitError.q95) + withInterval(unitError.q95Interval, size),
		),
		...ofChoice(
			'median drive',
			({ unitError }) => size(unitError.median) + withInterval(unitError.medianInterval, size),
		),
		...ofChoice('drives that pass', ({ passing, units }) => `${count(passing.passed)} of ${count(units)}`),
		...eventKinds.flatMap((kind) => ofChoice(eventWords[kind], ({ rates }) => rateWords(rates[kind]))),
		...ofChoice('runs that lost lock', ({ lost, runs }) => (runs > 0 ? percent(lost / runs) : none)),
	];
}

/** A unit's error, which is infinite where it lost lock. */
const size = (value: number): string => (Number.isFinite(value) ? degrees(value) : 'lock lost');

/** Not torn at a line's end, but on a line of its own where there is little room. */
const withInterval = (interval: readonly [number, number] | null, words: (value: number) => string): string =>
	interval ? ` (${span(words(interval[0]), words(interval[1])).replaceAll(' ', '\u00a0')})` : '';
