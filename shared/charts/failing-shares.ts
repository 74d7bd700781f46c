import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { verdict } from '../statistics/verdict.ts';
import type { StudyResult } from '../study/result.ts';
import { capital } from '../words/capital.ts';
import { percent, span } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import { decades, intervalRows } from './interval-rows.ts';
import type { Picture } from './pictures.ts';
import type { ChartTheme } from './theme.ts';

/** Share of drives that fail the requirement with a choice, at every point or at one of them. */
interface FailingRow {
	readonly place: string;
	readonly choice: ChoiceName;
	readonly failing: number;
	/** One-sided limits, each with the requirement's confidence. */
	readonly low: number;
	readonly high: number;
	/** None failed: the upper limit stands for it. */
	readonly none: boolean;
	readonly says: string;
}

const overall = 'all points';

/**
 * Drives that fail, over all operating points and at each, against what may fail:
 * the points that decide stand out. Logarithmic, since what is required lies near none.
 *
 * @param ghost the baseline's shares, drawn as grey ticks
 */
export function failingShares(result: StudyResult, theme: ChartTheme, ghost: StudyResult | null = null): Picture {
	const rows = rowsOf(result);
	const limit = 1 - result.requirement.share;
	const scaled = decades(
		rows.flatMap(({ low, high, failing }) => [low, high, failing]).concat(limit),
		{ least: 0.1, most: 0.1 },
		(decade) => levelWords(Number(`1e${decade}`)),
	);
	const before = ghost ? rowsOf(ghost).filter(({ failing }) => failing >= scaled.low) : null;
	const describes = `Share of drives that fail the requirement; at most ${levelWords(limit)} may. ${rows.map(({ says }) => says).join('. ')}.`;
	return {
		describes,
		spec: intervalRows(
			{
				name: 'failing',
				rows: rows.map((row) => ({ ...row, low: Math.max(row.low, scaled.low) })),
				ghost: before?.map((row) => ({ ...row })) ?? null,
				fields: { row: 'place', value: 'failing', low: 'low', high: 'high', open: 'none', openAt: ['high'] },
				order: [...new Set(rows.map(({ place }) => place))],
				height: 64 + 36 * (result.points.length + 1),
				scale: scaled.scale,
				axis: { ...scaled.axis, title: 'share of drives that fail' },
				limit: { at: limit, words: `${levelWords(limit)} may fail` },
			},
			theme,
			describes,
		),
	};
}

function rowsOf({ verdict: verdicts, requirement, points, provenance }: StudyResult): readonly FailingRow[] {
	const { share, confidence } = requirement;
	const row = (place: string, choice: ChoiceName, of: { share: number; low: number; high: number }): FailingRow => {
		const [low, high] = [1 - of.high, 1 - of.low];
		return {
			place,
			choice,
			failing: 1 - of.share,
			low,
			high,
			none: of.share === 1,
			says: `${capital(choiceWords[choice])}, ${place}: ${percent(1 - of.share)} fail (${span(percent(low, 'down'), percent(high, 'up'))}, each limit with ${levelWords(confidence)} confidence)`,
		};
	};
	if (provenance.units.finished === 0) return [];
	return [
		...choiceNames.map((choice) => row(overall, choice, verdicts[choice])),
		...points.flatMap(({ name, choices }) =>
			choiceNames.map((choice) => {
				const { passing, units } = choices[choice];
				const counts = {
					passed: passing.passed,
					failed: units - passing.passed,
					notSimulated: provenance.units.failed,
				};
				return row(name, choice, verdict(counts, share, confidence));
			}),
		),
	];
}
