import { computed } from '@preact/signals';
import { rangeErrors, rangePassing } from '../../../../shared/charts/range-curves.ts';
import { choiceNames } from '../../../../shared/drive/drive.ts';
import type { NumberRecord } from '../../../../shared/parameters/parameter.ts';
import { parameterById, parameters } from '../../../../shared/parameters/parameters.ts';
import type { Axis } from '../../../../shared/range/axis.ts';
import { rangeHeadline } from '../../../../shared/range/headline.ts';
import type { RangeResult, SlowestOfChoice } from '../../../../shared/range/range-result.ts';
import { canRange } from '../../../../shared/range/read-axis.ts';
import { type LoadLine, loadLines, settingProblems, valueWords } from '../../../../shared/range/setting.ts';
import { rangeShape } from '../../../../shared/results/range-shape.ts';
import type { Scenario } from '../../../../shared/scenario/scenario.ts';
import { variantCells } from '../../../../shared/variants/variant-cells.ts';
import { count } from '../../../../shared/words/figures.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { quantity } from '../../../../shared/words/quantity.ts';
import { type Changed, thenNow } from '../change-words.ts';
import { isOneOf, isPointTyped, isText } from '../fields.ts';
import { keptAnswers } from '../kept/kept-answers.ts';
import { createLongQuestion, type LongWatch } from '../long-question.ts';
import type { PageModel } from '../page-model.ts';
import { provenanceRows } from '../provenance-rows.ts';
import { readUnits } from '../study-inputs.ts';
import { createAxisEntry, isTypedAxis, nothingTyped } from './axis-entry.ts';
import { variantReservations } from './reservations.ts';

/** What is asked; plain data. */
export interface RangeAsked {
	readonly scenario: Scenario;
	readonly seed: string;
	readonly axes: readonly Axis[];
	/** Index of the only point that is run; null for all of them. */
	readonly point: number | null;
	readonly load: LoadLine;
	readonly units: number;
	readonly resolution: number;
}

/** Share of the speed that the slowest one is narrowed down to: a picture shows no more. */
const resolution = 0.02;

/** All parameters with values to range over. */
export const rangeParameters = parameters.filter(canRange);
const speed = parameterById.get('operation.speed') as NumberRecord;

export type RangeModel = ReturnType<typeof createRange>;

/** How far a design works along one parameter: what is asked, the run, and what its answer says. */
export function createRange(
	model: PageModel,
	run: (asked: RangeAsked, watch: LongWatch<RangeResult>) => Promise<RangeResult>,
) {
	const record = computed(() => rangeParameters.find(({ id }) => id === model.route.details.value.over) ?? speed);
	const isOfOnePoint = computed(() => record.value.stated === true);
	const { field } = model.fields;
	const entry = createAxisEntry(record, model.scenario, field('range.axis', nothingTyped, isTypedAxis));
	const pointTyped = field<number | null>('range.point', null, isPointTyped);
	const load = field<LoadLine>('range.load', 'square', isOneOf(...loadLines));
	const unitsTyped = field('range.units', '200', isText);
	const units = computed(() => readUnits(unitsTyped.value));
	const point = computed<number | null>(() => {
		const scenario = model.scenario.value;
		const typed = pointTyped.value;
		if (typed !== null && typed < (scenario?.points.length ?? 0)) return typed;
		return isOfOnePoint.value ? (scenario?.referencePoint ?? 0) : null;
	});

	/** The axis less the values that cannot be simulated, and why those cannot. */
	const fit = computed(() => {
		const scenario = model.scenario.value;
		const axis = entry.axis.value;
		if (!scenario || !axis) return { axis: null, leftOut: '' };
		const ranging = { scenario, point: point.value, load: load.value };
		const unfit = new Map(
			axis.values.flatMap((value): [number, string][] => {
				const [problem] = settingProblems(ranging, { [axis.record.id]: value });
				return problem ? [[value, problem.message]] : [];
			}),
		);
		const values = axis.values.filter((value) => !unfit.has(value));
		const words = [...unfit].map(([value, message]) => `${valueWords(axis.record.id, value)} (${message})`);
		return {
			axis: values.length > 0 ? { ...axis, values } : null,
			leftOut: words.length > 0 ? `Left out, as it cannot be simulated: ${words.join('; ')}.` : '',
		};
	});
	const request = computed<RangeAsked | null>(() => {
		const page = model.request.value;
		const { axis } = fit.value;
		if (!page || !axis || !('value' in units.value)) return null;
		return {
			scenario: page.scenario,
			seed: page.seed,
			axes: [axis],
			point: point.value,
			load: load.value,
			units: units.value.value,
			resolution,
		};
	});
	const question = createLongQuestion<RangeAsked, RangeResult>({
		model,
		request,
		run,
		kept: keptAnswers('range', rangeShape, model.services.store),
		sentence: rangeHeadline,
		ofBaseline: (asked, scenario) => (isAskable(asked, scenario) ? { ...asked, scenario } : null),
	});

	return {
		record,
		isOfOnePoint,
		entry,
		point,
		load,
		unitsTyped,
		units,
		question,
		leftOut: computed(() => fit.value.leftOut),
		setParameter: (id: string) => {
			pointTyped.value = null;
			model.route.refine({ ...model.route.details.value, over: id });
		},
		setPoint: (index: number | null) => {
			pointTyped.value = index;
		},
		cost: computed(() => {
			const asked = request.value;
			if (!asked) return '';
			const points = asked.point === null ? asked.scenario.points.length : 1;
			const values = asked.axes[0]?.values.length ?? 0;
			const search = asked.axes[0]?.record === speed ? ', and more where the slowest speed is sought' : '';
			return `${count(values)} values of at most ${count(asked.units)} drives${points > 1 ? ` at ${points} points` : ''}${search}`;
		}),
		answer: computed(() => {
			const given = question.answer.value;
			if (!given) return null;
			const { result } = given;
			const ghost = question.ghost.value?.result ?? null;
			const theme = model.services.theme();
			return {
				headline: rangeHeadline(result),
				inFull: [result.sentence, result.requirement.sentence],
				changed: ghost && changedWords(result, ghost),
				hasGhost: ghost !== null,
				pictures: { errors: rangeErrors(result, theme, ghost), passing: rangePassing(result, theme, ghost) },
				rows: rangeTableRows(result),
				reservations: variantReservations(result, {
					is: given.is,
					goingOn: 'the slowest speed that holds is still being sought',
					against: 'either verdict',
				}),
				rests: provenanceRows(result),
			};
		}),
	};
}

function isAskable({ axes, point, load }: RangeAsked, scenario: Scenario): boolean {
	if (point !== null && point >= scenario.points.length) return false;
	return axes.every(({ record, values }) =>
		values.every((value) => settingProblems({ scenario, point, load }, { [record.id]: value }).length === 0),
	);
}

/** Down to which speed the requirement holds, before and now; along another parameter the baseline's own answer. */
function changedWords(result: RangeResult, ghost: RangeResult): Changed {
	const [now, before] = [result, ghost].map(({ slowest }) => (slowest?.length === 1 ? slowest[0] : undefined));
	if (!now || !before) {
		const headline = rangeHeadline(ghost);
		return { lead: `The baseline: ${headline.charAt(0).toLowerCase()}${headline.slice(1)}`, basis: '' };
	}
	const words = ({ holds, fails }: SlowestOfChoice): string =>
		holds === null
			? 'no speed'
			: `${quantity(holds, 'rpm')}${fails === null ? '' : ` (not shown at ${quantity(fails, 'rpm')})`}`;
	const parts = choiceNames.map(
		(choice) => `${choiceWords[choice]} ${thenNow(words(before.choices[choice]), words(now.choices[choice]))}`,
	);
	return {
		lead: `Since the baseline: ${parts.join('; ')}.`,
		basis: 'The slowest speed down to which the requirement is shown to hold.',
	};
}

/** Every value with both choices' figures, rising. */
function rangeTableRows({ values, axes }: RangeResult) {
	const id = axes[0]?.id ?? '';
	return [...values]
		.filter(({ units }) => units.finished > 0)
		.sort((one, other) => (one.at[id] as number) - (other.at[id] as number))
		.map(({ at, choices, isSearched }) => ({
			value: valueWords(id, at[id] as number),
			isSearched,
			choices: choiceNames.map((choice) => ({ choice, ...variantCells(choices[choice]) })),
		}));
}
