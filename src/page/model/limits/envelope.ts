import { computed } from '@preact/signals';
import {
	combinationSigns,
	envelopeShares,
	rangedIds,
	signWords,
	worstCombinations,
} from '../../../../shared/charts/envelope-shares.ts';
import { type ChoiceName, choiceNames } from '../../../../shared/drive/drive.ts';
import { cornersOf, fewestCorners } from '../../../../shared/envelope/corners.ts';
import type { EnvelopeResult } from '../../../../shared/envelope/envelope-result.ts';
import { decidedWords, envelopeHeadline } from '../../../../shared/envelope/headline.ts';
import { valueWords } from '../../../../shared/range/setting.ts';
import { envelopeShape } from '../../../../shared/results/envelope-shape.ts';
import type { Scenario } from '../../../../shared/scenario/scenario.ts';
import { variantCells } from '../../../../shared/variants/variant-cells.ts';
import { count, percent } from '../../../../shared/words/figures.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { type Changed, thenNow } from '../change-words.ts';
import { isText } from '../fields.ts';
import { keptAnswers } from '../kept/kept-answers.ts';
import { createLongQuestion, type LongWatch } from '../long-question.ts';
import type { PageModel } from '../page-model.ts';
import { provenanceRows } from '../provenance-rows.ts';
import { readUnits } from '../study-inputs.ts';
import { variantReservations } from './reservations.ts';

/** What is asked; plain data. */
export interface EnvelopeAsked {
	readonly scenario: Scenario;
	readonly seed: string;
	readonly units: number;
	/** Combinations beyond which they are thinned. */
	readonly combinations: number;
}

/** As many as can be waited for; a scenario whose fewest are more has its fewest. */
const mostCombinations = 64;

/** The limits that the scenario states for its conditions, all together: what is asked, the run, and its answer. */
export function createEnvelope(
	model: PageModel,
	run: (asked: EnvelopeAsked, watch: LongWatch<EnvelopeResult>) => Promise<EnvelopeResult>,
) {
	const unitsTyped = model.fields.field('envelope.units', '200', isText);
	const units = computed(() => readUnits(unitsTyped.value));
	const ask = (scenario: Scenario): Pick<EnvelopeAsked, 'scenario' | 'combinations'> => ({
		scenario,
		combinations: Math.max(mostCombinations, fewestCorners(scenario)),
	});
	const request = computed<EnvelopeAsked | null>(() => {
		const page = model.request.value;
		return page && 'value' in units.value ? { ...ask(page.scenario), seed: page.seed, units: units.value.value } : null;
	});
	const question = createLongQuestion<EnvelopeAsked, EnvelopeResult>({
		model,
		request,
		run,
		kept: keptAnswers('envelope', envelopeShape, model.services.store),
		sentence: envelopeHeadline,
		ofBaseline: (asked, scenario) => ({ ...asked, ...ask(scenario) }),
	});
	return {
		unitsTyped,
		units,
		question,
		cost: computed(() => {
			const asked = request.value;
			if (!asked) return '';
			const { corners, possible } = cornersOf(asked.scenario, asked.combinations);
			const of = corners.length < possible ? ` of ${count(possible)}` : '';
			return `${count(corners.length)}${of} combinations of ${count(asked.units)} drives`;
		}),
		answer: computed(() => {
			const given = question.answer.value;
			if (!given) return null;
			const { result } = given;
			const ghost = question.ghost.value?.result ?? null;
			const ids = rangedIds(result);
			return {
				headline: envelopeHeadline(result),
				inFull: [result.sentence, result.requirement.sentence],
				changed: ghost && changedWords(result, ghost),
				hasGhost: ghost !== null,
				picture: envelopeShares(result, model.services.theme(), ghost),
				signs:
					ids.length > 0 ? signWords(ids) : 'No condition of this scenario has a range: each point is its own corner.',
				rows: worstCombinations(result).map((one) => ({
					signs: combinationSigns(one, ids),
					conditions: ids
						.filter((id) => one.limits[id])
						.map((id) => valueWords(id, one.conditions[id] as number))
						.join(', '),
					choices: choiceNames.map((choice) => ({ choice, ...variantCells(one.choices[choice]) })),
				})),
				reservations: variantReservations(result, {
					is: given.is,
					against: 'either verdict',
				}),
				rests: provenanceRows(result),
			};
		}),
	};
}

/** What passes everywhere, before and now. */
function changedWords(result: EnvelopeResult, ghost: EnvelopeResult): Changed {
	const words = ({ everywhere }: EnvelopeResult, choice: ChoiceName): string => {
		const { share, decision } = everywhere[choice].verdict;
		return `${percent(share)} (${decidedWords[decision]})`;
	};
	const parts = choiceNames.map(
		(choice) => `${choiceWords[choice]} ${thenNow(words(ghost, choice), words(result, choice))}`,
	);
	return { lead: `Since the baseline: ${parts.join('; ')}.`, basis: 'Drives that pass at all combinations of limits.' };
}
