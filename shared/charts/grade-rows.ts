import type { TopLevelSpec } from 'vega-lite';
import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { errorWords, judgedWords } from '../grades/grade-words.ts';
import { resistorCount } from '../grades/resistor-groups.ts';
import type { CaseFigures, GradesResult } from '../grades/result.ts';
import type { Verdict } from '../statistics/verdict.ts';
import { percent, span } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import { decades, intervalRows } from './interval-rows.ts';
import type { ChartTheme } from './theme.ts';

interface Case {
	readonly grade: string;
	readonly choice: ChoiceName;
	readonly figures: CaseFigures['choices'][ChoiceName];
	/** Null where it was not judged. */
	readonly judged: Verdict | null;
	readonly verdict: string;
}

/** Every grade with the choices whose boards have such resistors, tightest first, exact resistors above all. */
function casesOf({ exact, grades, group, provenance }: GradesResult): Case[] {
	const rows = [
		{ grade: exactName, figures: exact, judged: null },
		...grades.map(({ grade, cases, judged }) => ({ grade: grade.name, figures: cases.both, judged })),
	];
	return rows.flatMap(({ grade, figures, judged }) =>
		choiceNames
			.filter((choice) => resistorCount(group, choice) > 0)
			.map((choice) => ({
				grade,
				choice,
				figures: figures.choices[choice],
				judged: judged?.[choice] ?? null,
				verdict: judged ? judgedWords(judged[choice], provenance.partial) : '',
			})),
	);
}

const exactName = 'exact';
const orderOf = (cases: readonly Case[]): string[] => [...new Set(cases.map(({ grade }) => grade))];
const heightOf = (cases: readonly Case[]): number => 74 + 34 * orderOf(cases).length;

/**
 * How far off drives are with each grade, against the limit: the angle that 1
 * drive in 20 exceeds (filled) and the median drive's (open).
 *
 * @param ghost an earlier result, drawn as grey ticks
 */
export function gradeErrors(
	result: GradesResult,
	theme: ChartTheme,
	description: string,
	ghost?: GradesResult | null,
): TopLevelSpec {
	const cases = casesOf(result);
	const { angleLimit } = result.provenance.requirement;
	const rows = cases.flatMap(errorRows);
	const greatest = Math.max(angleLimit, ...rows.map(({ high, value }) => Math.max(high ?? 0, value ?? 0)));
	const domain = [0, 1.06 * greatest];
	const before = ghost
		? casesOf(ghost)
				.flatMap(errorRows)
				.filter(({ value, median }) => !median && value !== null && value <= (domain[1] as number))
		: null;
	return intervalRows(
		{
			name: 'errors',
			rows,
			ghost: before,
			fields: { row: 'grade', value: 'value', low: 'low', high: 'high', open: 'median' },
			order: orderOf(cases),
			height: heightOf(cases),
			scale: { domain, nice: false },
			axis: {
				title: 'error, electrical degrees',
				tickCount: 6,
				labelExpr: "datum.label + '°'",
			},
			limit: { at: angleLimit, words: `limit ${angleLimit}°` },
		},
		theme,
		description,
	);
}

function errorRows({ grade, choice, figures, verdict }: Case) {
	const { median, q95, medianInterval, q95Interval } = figures.unitError;
	const row = (value: number, interval: readonly [number, number] | null, isMedian: boolean) => {
		const [low, high] = [interval?.[0] ?? value, interval?.[1] ?? value].map((end) =>
			Number.isFinite(end) ? end : null,
		);
		const name = isMedian ? 'the median drive' : '1 drive in 20 beyond';
		const between = interval ? `, interval ${span(errorWords(interval[0]), errorWords(interval[1]))}` : '';
		return {
			grade,
			choice,
			value: Number.isFinite(value) ? value : null,
			low: low ?? null,
			high: high ?? null,
			median: isMedian,
			says: `${choiceWords[choice]}, ${grade}: ${name} ${errorWords(value)}${between}${verdict && `; ${verdict}`}`,
		};
	};
	return [row(median, medianInterval, true), row(q95, q95Interval, false)];
}

/**
 * Share of drives that do not pass with each grade, on a logarithmic scale, with
 * exact limits and what may fail at most. Where none failed, the upper limit is
 * drawn as an open mark.
 *
 * @param ghost an earlier result, drawn as grey ticks
 */
export function gradeShortfalls(
	result: GradesResult,
	theme: ChartTheme,
	description: string,
	ghost?: GradesResult | null,
): TopLevelSpec {
	const cases = casesOf(result);
	const allowed = 1 - result.provenance.requirement.share;
	const rows = cases.map(shortfallRow);
	const { low, high, scale, axis } = decades(
		[allowed, ...rows.flatMap((row) => [row.low, row.failing, row.high])],
		{ least: 0.01, most: 0.01 },
		(decade) => levelWords(Number(`1e${decade}`)),
	);
	const before = ghost
		? casesOf(ghost)
				.map(shortfallRow)
				.filter(({ failing }) => failing >= low && failing <= high)
		: null;
	return intervalRows(
		{
			name: 'shortfalls',
			rows: rows.map((row) => ({ ...row, low: Math.max(low, row.low) })),
			ghost: before,
			fields: { row: 'grade', value: 'failing', low: 'low', high: 'high', open: 'none', openAt: ['high'] },
			order: orderOf(cases),
			height: heightOf(cases),
			scale,
			axis: { ...axis, title: 'share of drives that do not pass' },
			limit: { at: allowed, words: `${levelWords(allowed)} allowed` },
		},
		theme,
		description,
	);
}

function shortfallRow({ grade, choice, figures, judged, verdict }: Case) {
	const { low: leastPassing, high: mostPassing } = judged ?? figures;
	const failing = 1 - figures.share;
	const [low, high] = [1 - mostPassing, 1 - leastPassing];
	const between =
		failing > 0 ? `, limits ${span(percent(low, 'down'), percent(high, 'up'))}` : `, at most ${percent(high, 'up')}`;
	return {
		grade,
		choice,
		failing,
		low,
		high,
		none: failing === 0,
		says: `${choiceWords[choice]}, ${grade}: ${percent(failing)} do not pass${between}${verdict && `; ${verdict}`}`,
	};
}
