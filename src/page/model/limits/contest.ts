import { computed, signal } from '@preact/signals';
import type { ContestResult } from '../../../../shared/contest/contest-result.ts';
import { contestSentence } from '../../../../shared/contest/contest-sentence.ts';
import type { NumberRecord } from '../../../../shared/parameters/parameter.ts';
import { parameterById } from '../../../../shared/parameters/parameters.ts';
import type { Axis } from '../../../../shared/range/axis.ts';
import { contestShape } from '../../../../shared/results/contest-shape.ts';
import type { Scenario } from '../../../../shared/scenario/scenario.ts';
import { count } from '../../../../shared/words/figures.ts';
import { isPointTyped, isText } from '../fields.ts';
import { keptAnswers } from '../kept/kept-answers.ts';
import { createLongQuestion, type LongWatch } from '../long-question.ts';
import type { PageModel } from '../page-model.ts';
import { provenanceRows } from '../provenance-rows.ts';
import { sentences } from '../sentences.ts';
import { readUnits } from '../study-inputs.ts';
import { createAxisEntry, isTypedAxis, nothingTyped } from './axis-entry.ts';
import { contestCells, contestTable } from './contest-cells.ts';
import { variantReservations } from './reservations.ts';

/** What is asked; plain data. */
export interface ContestAsked {
	readonly scenario: Scenario;
	readonly seed: string;
	readonly point: number;
	readonly speed: Axis;
	readonly torque: Axis;
	readonly units: number;
}

/** Values of either axis: cells that can be told apart and read at 390 px. */
const usualColumns = 8;
const usualRows = 6;

export type ContestModel = ReturnType<typeof createContest>;

/** Which choice is better at every speed and torque: what is asked, the run, and the map. */
export function createContest(
	model: PageModel,
	run: (asked: ContestAsked, watch: LongWatch<ContestResult>) => Promise<ContestResult>,
) {
	const record = (id: string) => computed(() => parameterById.get(id) as NumberRecord);
	const { field } = model.fields;
	const axis = (id: string, steps: number) =>
		createAxisEntry(record(id), model.scenario, field(`contest.${id}`, nothingTyped, isTypedAxis), steps);
	const speed = axis('operation.speed', usualColumns);
	const torque = axis('operation.torque', usualRows);
	const pointTyped = field<number | null>('contest.point', null, isPointTyped);
	const point = computed(() => {
		const scenario = model.scenario.value;
		const typed = pointTyped.value;
		return typed !== null && typed < (scenario?.points.length ?? 0) ? typed : (scenario?.referencePoint ?? 0);
	});
	const unitsTyped = field('contest.units', '200', isText);
	const units = computed(() => readUnits(unitsTyped.value));
	const request = computed<ContestAsked | null>(() => {
		const page = model.request.value;
		if (!page || !speed.axis.value || !torque.axis.value || !('value' in units.value)) return null;
		return {
			scenario: page.scenario,
			seed: page.seed,
			point: point.value,
			speed: speed.axis.value,
			torque: torque.axis.value,
			units: units.value.value,
		};
	});
	const question = createLongQuestion<ContestAsked, ContestResult>({
		model,
		request,
		run,
		kept: keptAnswers('contest', contestShape, model.services.store),
		sentence: ({ sentence }) => sentences(sentence).lead,
		ofBaseline: (asked, scenario) => (asked.point < scenario.points.length ? { ...asked, scenario } : null),
	});
	/** Key of the cell that arrow keys start from. */
	const focused = signal('');

	return {
		speed,
		torque,
		point,
		unitsTyped,
		units,
		question,
		focused,
		setPoint: (index: number) => {
			pointTyped.value = index;
		},
		cost: computed(() => {
			const asked = request.value;
			if (!asked) return '';
			const cells = asked.speed.values.length * asked.torque.values.length;
			return `${count(cells)} speeds and torques, up to ${count(asked.units)} drives where it is not decided`;
		}),
		answer: computed(() => {
			const given = question.answer.value;
			if (!given) return null;
			const { result } = given;
			// one that an edit ended was still going on when its figures came
			const { lead, rest } = sentences(contestSentence(result, given.is));
			const ghost = question.ghost.value?.result ?? null;
			return {
				headline: lead,
				inFull: [rest, result.requirement.sentence].filter(Boolean),
				rows: contestCells(result, ghost),
				hasGhost: ghost !== null,
				table: contestTable(result),
				reservations: variantReservations(result, {
					is: given.is,
					goingOn: 'drives are being sent to the cells that are not decided',
					against: 'either choice',
				}),
				rests: provenanceRows(result),
			};
		}),
	};
}

/** The cell that an arrow key leads to; null where the key is none or leads off the map. */
export function neighbourCell(
	rows: readonly (readonly { readonly key: string }[])[],
	from: string,
	key: string,
): string | null {
	const row = rows.findIndex((cells) => cells.some((cell) => cell.key === from));
	const column = rows[row]?.findIndex((cell) => cell.key === from) ?? -1;
	const steps: Readonly<Record<string, readonly [number, number]>> = {
		ArrowUp: [row - 1, column],
		ArrowDown: [row + 1, column],
		ArrowLeft: [row, column - 1],
		ArrowRight: [row, column + 1],
		Home: [row, 0],
		End: [row, (rows[row]?.length ?? 0) - 1],
	};
	const to = steps[key];
	return (to && rows[to[0]]?.[to[1]]?.key) ?? null;
}
