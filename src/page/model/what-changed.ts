import { computed, effect, signal } from '@preact/signals';
import { type Edits, mostEditsShared, setsNeeded, shapleyShares } from '../../../shared/attribution/shapley.ts';
import type { choiceNames, PerChoice } from '../../../shared/drive/drive.ts';
import type { JsonObject } from '../../../shared/scenario/read-json.ts';
import type { Scenario } from '../../../shared/scenario/scenario.ts';
import { confidenceLevel } from '../../../shared/study/confidence-level.ts';
import type { ChoiceChange, PointChange } from '../../../shared/study/point-change.ts';
import { headlineChanges, headlines, inDegrees, wordsOf } from '../../../shared/words/change.ts';
import { count } from '../../../shared/words/figures.ts';
import { changeWords } from './change-words.ts';
import { type Edit, editsBetween, samePoints, withEdits } from './edits.ts';
import { followed } from './followed.ts';
import type { PageModel } from './page-model.ts';
import type { Services } from './services.ts';

/** Drives of every set of edits. */
const attributionUnits = 200;
/** Edits beyond this many are shown and not told apart. */
const mostEdits = 10;

/** How far the attribution is. */
type Attributing =
	| { readonly state: 'none'; readonly words: string }
	| { readonly state: 'waiting' }
	| { readonly state: 'running'; readonly done: number; readonly asked: number }
	| { readonly state: 'done'; readonly attribution: Attribution };

interface Attribution {
	readonly point: string;
	readonly figures: readonly AttributedFigure[];
	readonly method: string;
}

export interface AttributedFigure {
	readonly label: string;
	readonly note: string;
	readonly choices: PerChoice<{ readonly whole: string; readonly rows: readonly AttributedEdit[] }>;
}

export interface AttributedEdit {
	readonly edit: string;
	/** Its share of the change, in words, and as a part of the largest one for a bar (−1 … 1); null where none can be told. */
	readonly share: { readonly words: string; readonly bar: number } | null;
	readonly alone: string;
	readonly last: string;
}

/** The view "what changed, and why?": the pinned result against the present one, and each edit's part in it. */
export function createWhatChanged(model: PageModel) {
	const { against, inputs, whichChoice, shown, state: runState } = model;
	const attributing = signal<Attributing>({ state: 'none', words: '' });
	const isOpen = signal(false);

	const edits = computed<readonly Edit[]>(() => {
		const pinned = against.baseline.value;
		const present = inputs.document.value;
		return pinned && present ? editsBetween(pinned.document, present) : [];
	});
	const answer = computed(() => {
		const change = against.change.value;
		const point = model.onShow.value?.point.name;
		return change && point !== undefined
			? { ...changeWords(point, change, confidenceLevel), headlines: headlineChanges(change), point }
			: null;
	});
	const changes = followed(() => (isOpen.value ? { of: 'every point', answer: against.changes() } : null));
	const everywhere = computed(() =>
		(changes.value ?? []).map(({ name, change }) => ({
			name,
			choices: {
				halfBus: change && wordsOf(change.choices.halfBus.typical, inDegrees),
				virtualNeutral: change && wordsOf(change.choices.virtualNeutral.typical, inDegrees),
			},
			gap: change && wordsOf(change.gap, inDegrees),
		})),
	);

	/** What the latest attribution is of; another one begins when this changes and the page is at rest. */
	let latest: { readonly before: JsonObject; readonly after: JsonObject; readonly point: number } | null = null;
	effect(() => {
		const pinned = against.baseline.value;
		const after = inputs.document.value;
		const point = whichChoice.pointIndex.value;
		const list = edits.value;
		const state = runState.value;
		if (!isOpen.value || !pinned || !after || shown.value?.scenario !== model.scenario.value) return;
		if (state !== 'done' && state !== 'idle') return;
		if (latest?.before === pinned.document && latest.after === after && latest.point === point) return;
		const own = { before: pinned.document, after, point };
		latest = own;
		const plan = planned(own.before, own.after, list);
		if ('words' in plan) {
			attributing.value = { state: 'none', words: plan.words };
			return;
		}
		attributing.value = { state: 'waiting' };
		const units = Math.min(attributionUnits, pinned.shown.units);
		const asked = units * plan.scenarios.length;
		const isLatest = (): boolean => latest === own;
		model
			.background(async ({ end, stop }) => {
				if (!isLatest()) return;
				attributing.value = { state: 'running', done: 0, asked };
				const records = await model.services.compare(
					{ scenarios: plan.scenarios, point, seed: pinned.shown.seed, units },
					{
						signal: end,
						stop,
						onProgress: (done) => {
							if (isLatest()) attributing.value = { state: 'running', done, asked };
						},
					},
				);
				if (!isLatest()) return;
				if (records) {
					const { pointChange } = model.services;
					const steps = await changesBetween(plan.sets, list.length, (from, to) => {
						const [before, after] = [records[plan.sets.indexOf(from)], records[plan.sets.indexOf(to)]];
						return before && after ? pointChange({ record: before, point: 0 }, { record: after, point: 0 }) : null;
					});
					if (!isLatest()) return;
					const name = plan.scenarios[0]?.points[point]?.name ?? '';
					attributing.value = { state: 'done', attribution: attributed(list, steps, { point: name, units }) };
					return;
				}
				// it gave way to a run, and begins again after it
				latest = null;
				attributing.value = stop.aborted
					? { state: 'waiting' }
					: {
							state: 'none',
							words: 'A nominal drive in between cannot be simulated, so the edits cannot be told apart.',
						};
			})
			.catch((error: unknown) => {
				attributing.value = { state: 'none', words: `The edits could not be told apart: ${String(error)}` };
			});
	});

	/** The scenarios to be run, or why the edits cannot be told apart. */
	function planned(
		before: JsonObject,
		after: JsonObject,
		list: readonly Edit[],
	): { readonly sets: readonly Edits[]; readonly scenarios: readonly Scenario[] } | { readonly words: string } {
		if (list.length === 0) return { words: '' };
		if (!samePoints(before, after))
			return { words: 'The baseline has other operating points: only results can be compared.' };
		if (list.length > mostEdits) {
			return {
				words: `${list.length} parameters differ; up to ${mostEdits} can be told apart. Pin a nearer baseline.`,
			};
		}
		const sets = setsNeeded(list.length);
		const scenarios: Scenario[] = [];
		for (const set of sets) {
			const reading = inputs.readingOf(withEdits(before, after, list, set));
			if ('scenario' in reading) scenarios.push(reading.scenario);
			else
				return { words: `Some of the edits only hold together: without the others, ${reading.problems[0]?.message}.` };
		}
		return { sets, scenarios };
	}

	return {
		edits,
		answer,
		everywhere,
		attributing,
		/** Told by the view when it comes and goes: edits are only told apart while someone looks. */
		setOpen: (open: boolean) => {
			isOpen.value = open;
		},
	};
}

/** What sets of edits changed, from none of them and as the last of all. */
interface Steps {
	readonly fromNone: ReadonlyMap<Edits, PointChange | null>;
	/** By edit. */
	readonly last: readonly (PointChange | null)[];
}

async function changesBetween(
	sets: readonly Edits[],
	edits: number,
	between: (from: Edits, to: Edits) => ReturnType<Services['pointChange']> | null,
): Promise<Steps> {
	const all = 2 ** edits - 1;
	const [fromNone, last] = await Promise.all([
		Promise.all(sets.map(async (set) => [set, await between(0, set)] as const)),
		Promise.all(Array.from({ length: edits }, (_, i) => between(all - 2 ** i, all))),
	]);
	return { fromNone: new Map(fromNone), last };
}

function attributed(
	edits: readonly Edit[],
	{ fromNone, last }: Steps,
	{ point, units }: { readonly point: string; readonly units: number },
): Attribution {
	const all = 2 ** edits.length - 1;
	const isShared = edits.length <= mostEditsShared;
	const figures = headlines
		.filter(({ name }) => name !== 'crossings')
		.map(({ name, label, note, print }): AttributedFigure => {
			const of = (choice: (typeof choiceNames)[number]) => {
				const figure = (set: Edits): number => figureOf(fromNone.get(set)?.choices[choice][name] ?? null);
				const shares = isShared ? shapleyShares(edits.length, figure) : null;
				const largest = Math.max(...(shares ?? []).map(Math.abs)) || 1;
				return {
					whole: wordsOf(fromNone.get(all)?.choices[choice][name] ?? null, print)?.step ?? '–',
					rows: edits.map((edit, i): AttributedEdit => {
						const share = shares?.[i];
						return {
							edit: edit.name,
							share:
								share !== undefined && Number.isFinite(share)
									? { words: print.step(share), bar: share / largest }
									: null,
							alone: wordsOf(fromNone.get(2 ** i)?.choices[choice][name] ?? null, print)?.step || '–',
							last: wordsOf(last[i]?.choices[choice][name] ?? null, print)?.step || '–',
						};
					}),
				};
			};
			return { label, note, choices: { halfBus: of('halfBus'), virtualNeutral: of('virtualNeutral') } };
		});
	const sharing = isShared
		? 'A share is the step of an edit averaged over every order in which the edits could have been made (Shapley); shares add up to the whole.'
		: `With more than ${mostEditsShared} edits no shares are worked out.`;
	return {
		point,
		figures,
		method: `${count(units)} drives, the same ones with every set of edits. ${sharing} Alone: the edit made on the baseline. Last: its step when all others are made. Each set of edits has the delay compensation found for it; ±\u00a0to the farther limit of the 95\u00a0% interval.`,
	};
}

/** The figure with a set of edits made: of the comparison with none, the later side. */
const figureOf = (change: ChoiceChange[(typeof headlines)[number]['name']] | null): number =>
	change?.after ?? Number.NaN;
