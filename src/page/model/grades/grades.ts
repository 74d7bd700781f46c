import { computed } from '@preact/signals';
import { gradeErrors, gradeShortfalls } from '../../../../shared/charts/grade-rows.ts';
import type { Picture } from '../../../../shared/charts/pictures.ts';
import type { ChartTheme } from '../../../../shared/charts/theme.ts';
import { choiceNames } from '../../../../shared/drive/drive.ts';
import type { Grade } from '../../../../shared/grades/grade.ts';
import { gradePlan } from '../../../../shared/grades/grade-plan.ts';
import { apartWords, earlyWords, errorWords } from '../../../../shared/grades/grade-words.ts';
import { gradesHeadline } from '../../../../shared/grades/headline.ts';
import { readOffer, usualGrades } from '../../../../shared/grades/read-offer.ts';
import { type AskedGroup, askedGroups, resistorCount } from '../../../../shared/grades/resistor-groups.ts';
import type { CaseFigures, GradesResult } from '../../../../shared/grades/result.ts';
import { gradesShape } from '../../../../shared/results/grades-shape.ts';
import type { Scenario } from '../../../../shared/scenario/scenario.ts';
import { cautionsOf } from '../../../../shared/study/doubts.ts';
import { requirementSentence } from '../../../../shared/study/verdict-sentence.ts';
import { capital } from '../../../../shared/words/capital.ts';
import { count, percent } from '../../../../shared/words/figures.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { type Changed, thenNow } from '../change-words.ts';
import { isOneOf, isText } from '../fields.ts';
import { keptAnswers } from '../kept/kept-answers.ts';
import { createLongQuestion, type LongWatch } from '../long-question.ts';
import type { PageModel } from '../page-model.ts';
import { readUnits } from '../study-inputs.ts';
import { gradeTable, mixRows, nominalRows } from './grade-table.ts';

/** What is asked; plain data. */
export interface GradesAsked {
	readonly scenario: Scenario;
	readonly seed: string;
	readonly group: AskedGroup;
	readonly grades: readonly Grade[];
	readonly units: number;
}

export type GradesModel = ReturnType<typeof createGrades>;

/** The view "what grade is enough": what is asked, the run, and what its answer says. */
export function createGrades(
	model: PageModel,
	run: (asked: GradesAsked, watch: LongWatch<GradesResult>) => Promise<GradesResult>,
) {
	const { field } = model.fields;
	const group = field<AskedGroup>('grades.group', 'all', isOneOf(...askedGroups));
	const gradesTyped = field('grades.grades', usualGrades, isText);
	const pricesTyped = field('grades.prices', '', isText);
	const unitsTyped = field('grades.units', '300', isText);

	const offer = computed(() =>
		readOffer(gradesTyped.value, pricesTyped.value.trim() === '' ? null : pricesTyped.value),
	);
	const units = computed(() => readUnits(unitsTyped.value));
	const problemsOf = (list: 'grades' | 'prices') =>
		computed(() =>
			'problems' in offer.value
				? offer.value.problems
						.filter(({ of }) => of === list)
						.map(({ value, message }) => `“${value}” ${message}`)
						.join('. ')
				: '',
		);
	const request = computed<GradesAsked | null>(() => {
		const page = model.request.value;
		return page && 'grades' in offer.value && 'value' in units.value
			? {
					scenario: page.scenario,
					seed: page.seed,
					group: group.value,
					grades: offer.value.grades,
					units: units.value.value,
				}
			: null;
	});
	const question = createLongQuestion<GradesAsked, GradesResult>({
		model,
		request,
		run,
		kept: keptAnswers('grades', gradesShape, model.services.store),
		sentence: gradesHeadline,
	});

	return {
		group,
		gradesTyped,
		gradesProblem: problemsOf('grades'),
		pricesTyped,
		pricesProblem: problemsOf('prices'),
		unitsTyped,
		units,
		question,
		/** What a run comes to. */
		cost: computed(() => {
			const asked = request.value;
			if (!asked) return '';
			const runs = gradePlan(asked.scenario, asked.group, asked.grades).scenarios.length;
			return `${count(runs)} runs of at most ${count(asked.units)} drives, and fresh ones to confirm what holds`;
		}),
		answer: computed(() => {
			const given = question.answer.value;
			return given && answerOf(given.result, question.ghost.value?.result ?? null, model.services.theme());
		}),
	};
}

function answerOf(result: GradesResult, ghost: GradesResult | null, theme: ChartTheme) {
	const { group, enough, enoughOfArrays, provenance } = result;
	const concerned = choiceNames.filter((choice) => resistorCount(group, choice) > 0);
	const early = earlyWords(result);
	const isJudged = result.grades.some(({ judged }) => choiceNames.some((choice) => judged[choice] !== null));
	const failed = casesOf(result).reduce((sum, { units }) => sum + units.failed, 0);
	return {
		headline: gradesHeadline(result),
		requirement: requirementSentence(provenance.requirement),
		isPriced: result.grades.some(({ price }) => price !== null),
		changed: ghost && changedWords(result, ghost),
		hasGhost: ghost !== null,
		choices: choiceNames.map((choice) => ({
			choice,
			sentences: [
				enough[choice].sentence,
				...(enoughOfArrays && concerned.includes(choice) ? [enoughOfArrays[choice].sentence] : []),
			],
			rows: gradeTable(result, choice, ghost),
			mixes: mixRows(result, choice),
		})),
		pictures: concerned.length > 0 ? drawGrades(result, ghost, theme) : null,
		nominals: nominalRows(result),
		apart: apartWords(result),
		reservations: [
			...(provenance.partial
				? [
						isJudged
							? 'Stopped: figures of the drives that finished; what holds is not confirmed.'
							: 'Stopped: figures of the drives that finished, and no grade is judged.',
					]
				: []),
			...(early ? [early] : []),
			...(failed > 0
				? [`${count(failed)} drives could not be simulated; they count against the grade that they were run with.`]
				: []),
			...cautionsOf(provenance),
		],
		rests: [
			['Scenario', provenance.scenario],
			['Seed', provenance.seed],
			[
				'Drives',
				`${count(provenance.units.asked)} in ${count(provenance.runs)} runs of at most ${count(provenance.unitsPerRun)}, ${count(failed)} failed`,
			],
			['Scenario digest', provenance.scenarioDigest],
			['Result digest', provenance.resultDigest],
			['Version', provenance.version],
			...Object.entries(provenance.methods).map(([figure, method]) => [capital(figure), method] as const),
		] as readonly (readonly [string, string])[],
	};
}

const casesOf = ({ exact, grades }: GradesResult): readonly CaseFigures[] => [
	...new Set([exact, ...grades.flatMap(({ cases }) => Object.values(cases))]),
];

function drawGrades(result: GradesResult, ghost: GradesResult | null, theme: ChartTheme) {
	const { grades, exact, group } = result;
	const each = (read: (figures: CaseFigures['choices']['halfBus']) => string): string =>
		choiceNames
			.filter((choice) => resistorCount(group, choice) > 0)
			.map((choice) => {
				const words = grades.map(({ grade, cases }) => `${grade.name} ${read(cases.both.choices[choice])}`);
				return `${choiceWords[choice]}: ${words.join(', ')}, exact resistors ${read(exact.choices[choice])}`;
			})
			.join('. ');
	const limit = result.provenance.requirement.angleLimit;
	const errors = `Angle that 1 drive in 20 exceeds with each grade, against the limit of ${limit}°. ${each(({ unitError }) => errorWords(unitError.q95))}.`;
	const shortfalls = `Share of drives that do not pass with each grade. ${each(({ share }) => percent(1 - share))}.`;
	const picture = (draw: typeof gradeErrors, describes: string): Picture => ({
		spec: draw(result, theme, describes, ghost),
		describes,
	});
	return { errors: picture(gradeErrors, errors), shortfalls: picture(gradeShortfalls, shortfalls) };
}

/** What is enough, before and now. */
function changedWords(result: GradesResult, ghost: GradesResult): Changed {
	const name = (of: GradesResult, choice: (typeof choiceNames)[number]): string => {
		const kinds = [of.enough[choice], ...(of.enoughOfArrays ? [of.enoughOfArrays[choice]] : [])];
		return kinds.flatMap(({ confirmed }) => confirmed ?? []).join(' or ') || 'none shown';
	};
	const parts = choiceNames
		.filter((choice) => resistorCount(result.group, choice) > 0)
		.map((choice) => `${choiceWords[choice]} ${thenNow(name(ghost, choice), name(result, choice))}`);
	return {
		lead: `Since the baseline: ${parts.join('; ')}.`,
		basis:
			'The grade that is enough, on the same drives; steps in the table have limits as of different drives, which are the wider ones.',
	};
}
