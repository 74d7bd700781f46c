import type { ChoiceName } from '../../../../shared/drive/drive.ts';
import { errorWords, heldWords, judgedWords, nominalWords } from '../../../../shared/grades/grade-words.ts';
import { resistorCount } from '../../../../shared/grades/resistor-groups.ts';
import type { CaseFigures, GradesResult } from '../../../../shared/grades/result.ts';
import { mixWords } from '../../../../shared/grades/sentence.ts';
import { apartDifference } from '../../../../shared/statistics/apart-difference.ts';
import type { Verdict } from '../../../../shared/statistics/verdict.ts';
import { type ChangeWords, inDegrees, inShares, wordsOf } from '../../../../shared/words/change.ts';
import { chancePerHour, percent, span } from '../../../../shared/words/figures.ts';

/** A figure with its interval or what else belongs under it, and what it was in the baseline. */
interface Cell {
	readonly main: string;
	readonly detail: string;
	readonly was: string;
}

export interface GradeRow {
	readonly name: string;
	readonly pass: Cell;
	readonly median: Cell;
	readonly oneInTwenty: Cell;
	readonly hourly: Cell;
	/** '' without prices. */
	readonly price: string;
	/** '' of exact resistors, which nobody sells. */
	readonly verdict: string;
	readonly decision: Verdict['decision'] | null;
	/** Passing share and 1 drive in 20, by what of the grade is taken over; empty of exact resistors. */
	readonly effects: readonly { readonly effect: string; readonly words: string }[];
}

/** One choice's grades, tightest first, after exact resistors: what no grade can better. */
export function gradeTable(result: GradesResult, choice: ChoiceName, ghost: GradesResult | null): readonly GradeRow[] {
	const { exact, grades, group, provenance } = result;
	if (resistorCount(group, choice) === 0) return [];
	const ghostOf = (name: string): CaseFigures | null =>
		ghost?.grades.find(({ grade }) => grade.name === name)?.cases.both ?? null;
	return [
		{
			name: 'exact resistors',
			...figureCells(exact, ghost?.exact ?? null, choice, null),
			price: '',
			verdict: '',
			decision: null,
			effects: [],
		},
		...grades.map(({ grade, cases, judged, price }): GradeRow => {
			const { nominals, tolerance, both } = cases;
			const effect = (name: string, figures: CaseFigures) => ({
				effect: name,
				words: `${percent(figures.choices[choice].share)} · ${errorWords(figures.choices[choice].unitError.q95)}`,
			});
			return {
				name: grade.name,
				...figureCells(both, ghostOf(grade.name), choice, judged[choice]),
				price: price === null ? '' : String(price[choice]),
				verdict: judgedWords(judged[choice], provenance.partial),
				decision: judged[choice]?.decision ?? null,
				effects: [
					effect('exact', exact),
					effect('nominal values alone', nominals),
					effect('tolerance alone', tolerance),
					effect('both', both),
				],
			};
		}),
	];
}

function figureCells(figures: CaseFigures, ghost: CaseFigures | null, choice: ChoiceName, judged: Verdict | null) {
	const own = figures.choices[choice];
	const before = ghost?.choices[choice] ?? null;
	const { low, high } = judged ?? own;
	const cell = (
		read: (of: typeof own) => string,
		detail = '',
		change?: (from: typeof own) => ChangeWords | null,
	): Cell => {
		const step = before && change?.(before)?.step;
		return { main: read(own), detail, was: before ? `was ${read(before)}${step ? `: ${step}` : ''}` : '' };
	};
	const quantile = (of: typeof own, name: 'median' | 'q95') => ({
		value: of.unitError[name],
		interval: of.unitError[`${name}Interval`],
	});
	const inUnits = (name: 'median' | 'q95') => (from: typeof own) =>
		wordsOf(apartDifference(quantile(from, name), quantile(own, name)), inDegrees);
	const inPassing = (from: typeof own) =>
		wordsOf(
			apartDifference(
				{ value: from.share, interval: [from.low, from.high] },
				{ value: own.share, interval: [low, high] },
			),
			inShares,
		);
	const interval = (limits: readonly [number, number] | null): string =>
		limits ? span(errorWords(limits[0]), errorWords(limits[1])) : 'too few drives';
	return {
		pass: cell(({ share }) => percent(share), span(percent(low, 'down'), percent(high, 'up')), inPassing),
		median: cell(
			({ unitError }) => errorWords(unitError.median),
			interval(own.unitError.medianInterval),
			inUnits('median'),
		),
		oneInTwenty: cell(
			({ unitError }) => errorWords(unitError.q95),
			interval(own.unitError.q95Interval),
			inUnits('q95'),
		),
		hourly: cell(({ crossingsPerHour }) => chancePerHour(crossingsPerHour)),
	};
}

/** The purchasable nominal values of each grade. */
export const nominalRows = ({ grades }: GradesResult) =>
	grades.map(({ grade, nominals }) => ({
		name: grade.name,
		series: grade.series.join(' or '),
		words: nominalWords(nominals),
	}));

/** Mixes that held are listed so far; a result file has all. */
const mixesShown = 6;

/** The cheapest mixes that held in the search and how fresh drives went, for one choice; null where no mix was sought. */
export function mixRows({ cheapest }: GradesResult, choice: ChoiceName) {
	if (!cheapest) return null;
	const { searched, fresh, sentence } = cheapest[choice];
	const held = searched.filter(({ verdict }) => verdict.decision === 'holds');
	return {
		sentence,
		counted: heldWords(held.length, searched.length),
		rows: held.slice(0, mixesShown).map((mix) => {
			const words = mixWords(mix);
			const test = fresh.find(({ subject }) => mixWords(subject) === words);
			return {
				mix: words,
				pass: percent(mix.verdict.share),
				fresh: test ? `${percent(test.verdict.share)}, ${test.verdict.decision}` : 'not tried',
			};
		}),
	};
}
