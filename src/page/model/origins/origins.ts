import { computed, effect } from '@preact/signals';
import { budgetBars } from '../../../../shared/charts/budget-bars.ts';
import type { Picture } from '../../../../shared/charts/pictures.ts';
import { spreadOrigins } from '../../../../shared/charts/spread-origins.ts';
import type { ChartTheme } from '../../../../shared/charts/theme.ts';
import { choiceNames } from '../../../../shared/drive/drive.ts';
import { originsHeadline } from '../../../../shared/origins/headline.ts';
import { changeMethod, originsChange } from '../../../../shared/origins/origins-change.ts';
import { fewestRows } from '../../../../shared/origins/origins-result.ts';
import { budgetsShape } from '../../../../shared/results/budgets-shape.ts';
import { originsShape } from '../../../../shared/results/origins-shape.ts';
import { flag, object, orNull } from '../../../../shared/results/shape.ts';
import type { Scenario } from '../../../../shared/scenario/scenario.ts';
import type { Change } from '../../../../shared/statistics/quantile-change.ts';
import { cautionsOf } from '../../../../shared/study/doubts.ts';
import { inDegrees, type Print, wordsOf } from '../../../../shared/words/change.ts';
import { count, degrees } from '../../../../shared/words/figures.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { budgetsDrives } from '../../../host/run-budgets.ts';
import { originsDrives } from '../../../host/run-origins.ts';
import type { SpreadResult } from '../../../host/run-spread.ts';
import { type Changed, fromTo, reachWords, stepWords } from '../change-words.ts';
import { isText } from '../fields.ts';
import { keptAnswers } from '../kept/kept-answers.ts';
import { createLongQuestion, type LongWatch } from '../long-question.ts';
import type { PageModel } from '../page-model.ts';
import { provenanceRows } from '../provenance-rows.ts';
import { readUnits } from '../study-inputs.ts';
import { budgetTable, originTable } from './origin-table.ts';

/** What is asked; plain data. */
export interface SpreadAsked {
	readonly scenario: Scenario;
	readonly seed: string;
	readonly point: number;
	readonly rows: number;
	readonly units: number;
}

export type OriginsModel = ReturnType<typeof createOrigins>;

/** Fewer rows share nothing out; more take a browser longer than anyone waits. */
const rowLimits = { least: 20, most: 20_000 };

const spreadShape = object<SpreadResult>({
	provenance: object({ partial: flag }),
	origins: originsShape,
	budgets: orNull(budgetsShape),
});

/** The view "what drives the spread": what is asked, the run, and what its answer says. */
export function createOrigins(
	model: PageModel,
	run: (asked: SpreadAsked, watch: LongWatch<SpreadResult>) => Promise<SpreadResult>,
) {
	const rowsTyped = model.fields.field('origins.rows', '300', isText);
	const rows = computed(() => {
		const read = readUnits(rowsTyped.value);
		const isWithin = 'value' in read && read.value >= rowLimits.least && read.value <= rowLimits.most;
		return isWithin
			? read
			: { problem: `Rows of the design: a whole number from ${rowLimits.least} to ${count(rowLimits.most)}.` };
	});
	const request = computed<SpreadAsked | null>(() => {
		const page = model.request.value;
		if (!page || !('value' in rows.value)) return null;
		const point = Math.min(model.whichChoice.pointIndex.value, page.scenario.points.length - 1);
		// the budget of drawn drives is a mean over eight moments of each, so fewer serve
		return { scenario: page.scenario, seed: page.seed, point, rows: rows.value.value, units: rows.value.value };
	});
	const question = createLongQuestion<SpreadAsked, SpreadResult>({
		model,
		request,
		run,
		kept: keptAnswers('spread', spreadShape, model.services.store),
		ofBaseline(asked, scenario) {
			const name = asked.scenario.points[asked.point]?.name;
			const point = scenario.points.findIndex((one) => one.name === name);
			return point < 0 ? null : { ...asked, scenario, point };
		},
		sentence: ({ origins }) => originsHeadline(origins),
	});

	// whoever goes to another point wants that point's figures
	let shownPoint = model.whichChoice.pointIndex.value;
	effect(() => {
		const point = model.whichChoice.pointIndex.value;
		const isMove = point !== shownPoint;
		shownPoint = point;
		const isWanted = question.answer.value === null || question.isStale.value;
		if (isMove && question.isReady.value && question.isOpen.value && isWanted && request.value) void question.ask();
	});

	return {
		rowsTyped,
		rows,
		question,
		/** What a run comes to. */
		cost: computed(() => {
			const asked = request.value;
			if (!asked) return '';
			const drives = originsDrives({ ...asked, units: 0 }) + budgetsDrives(asked);
			return `${count(drives)} drives at ${asked.scenario.points[asked.point]?.name}`;
		}),
		answer: computed(() => {
			const given = question.answer.value;
			return given && answerOf(given.result, question.ghost.value?.result ?? null, model.services.theme());
		}),
	};
}

function answerOf({ origins, budgets }: SpreadResult, ghost: SpreadResult | null, theme: ChartTheme) {
	const parts = budgets ? [origins, budgets] : [origins];
	const failures = parts.flatMap(({ provenance }) => provenance.failures);
	return {
		point: origins.point,
		headline: originsHeadline(origins),
		sentence: origins.sentence,
		changed: ghost && changedWords(origins, ghost.origins),
		hasGhost: ghost !== null,
		reservations: [
			...(parts.some(({ provenance }) => provenance.partial) ? ['Stopped: figures of what finished.'] : []),
			...(failures.length > 0
				? [`${count(failures.length)} drives could not be simulated; they are listed below and in no figure.`]
				: []),
			...new Set(parts.flatMap(({ provenance }) => cautionsOf(provenance))),
		],
		picture: drawOrigins(origins, ghost?.origins ?? null, theme),
		choices: choiceNames.map((choice) => ({
			choice,
			...originTable(origins, choice, ghost?.origins ?? null),
			budgets: budgets && budgetTable(budgets, choice),
		})),
		budgets: budgets && {
			sentence: budgets.sentence,
			why: budgets.why,
			picture: drawBudgets(budgets, ghost?.budgets ?? null, theme),
		},
		rests: [
			...provenanceRows(origins).rows,
			...(ghost ? [['Change of the spread', changeMethod] as const] : []),
			...(budgets
				? provenanceRows(budgets)
						.rows.filter(([term]) => term === 'Drives' || Object.hasOwn(budgets.provenance.methods, lowered(term)))
						.map(([term, words]) => [`Budgets: ${lowered(term)}`, words] as const)
				: []),
		] as readonly (readonly [string, string])[],
		failures,
	};
}

const lowered = (term: string): string =>
	term.startsWith('Monte') ? term : term.charAt(0).toLowerCase() + term.slice(1);

function drawOrigins(
	origins: SpreadResult['origins'],
	ghost: SpreadResult['origins'] | null,
	theme: ChartTheme,
): Picture | null {
	if (choiceNames.every((choice) => origins.choices[choice].rows === 0)) return null;
	const describes = `Shares of the spread by origin at ${origins.point}. ${origins.sentence}`;
	return { describes, spec: spreadOrigins(origins, theme, describes, ghost) };
}

function drawBudgets(
	budgets: NonNullable<SpreadResult['budgets']>,
	ghost: SpreadResult['budgets'],
	theme: ChartTheme,
): Picture | null {
	if (choiceNames.every((choice) => budgets.choices[choice].worstKind === null)) return null;
	const describes = `The budgets side by side at ${budgets.point}. ${budgets.sentence}`;
	return { describes, spec: budgetBars(budgets, theme, describes, ghost) };
}

/** The spread itself, before and now, with what chance leaves open of the change, and what it is of. */
function changedWords(present: SpreadResult['origins'], before: SpreadResult['origins']): Changed {
	const changes = choiceNames.map((choice) => ({ choice, change: originsChange(before, present, choice) }));
	const parts = changes.map(({ choice, change }) => {
		const isFew = [before, present].some(({ choices }) => choices[choice].rows < fewestRows);
		return `${choiceWords[choice]} ${spreadWords(change, isFew ? 'too few whole rows for limits' : 'its rows were not kept: no limits')}`;
	});
	const limits = changes.some(({ change }) => isTold(change) && isBounded(change))
		? `; ${reachWords(present.provenance.level)}`
		: '';
	return {
		lead: `Since the baseline: ${parts.join('; ')}.`,
		basis: `Standard deviation of the mean angle error, on the same draws${limits}.`,
	};
}

/** On the same draws small changes are known to thousandths of a degree. */
const inSpreads: Print = { ...inDegrees, finest: 0.01 };

/** What the edit does not reach is the same to the last bit. */
const isTold = ({ change }: Change): boolean => change !== 0;
const isBounded = ({ low, high }: Change): boolean => Number.isFinite(high - low);

function spreadWords(change: Change, withoutLimits: string): string {
	const { before, after } = change;
	if (!isTold(change)) return `${degrees(after)} as before`;
	const words = isBounded(change) ? wordsOf(change, inSpreads) : null;
	return words ? stepWords(words) : `${fromTo(degrees(before), degrees(after))} (${withoutLimits})`;
}
