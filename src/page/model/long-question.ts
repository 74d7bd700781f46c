import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { JsonObject } from '../../../shared/scenario/read-json.ts';
import type { Scenario } from '../../../shared/scenario/scenario.ts';
import { errorMessage } from '../../../shared/words/error-message.ts';
import { count } from '../../../shared/words/figures.ts';
import { fromTo } from './change-words.ts';
import { editsBetween, samePoints } from './edits.ts';
import type { KeptAnswers } from './kept/kept-answers.ts';
import type { PageModel } from './page-model.ts';

/** What every question asks of at least; plain data, so that equal questions can be told to be equal. */
interface LeastAsked {
	readonly scenario: Scenario;
	readonly seed: string;
}

interface LeastResult {
	readonly provenance: { readonly partial: boolean };
}

/** Drives so far and drives known to be needed; `asked` rises where a search goes on. */
export interface LongProgress {
	readonly asked: number;
	readonly finished: number;
	readonly failed: number;
}

export interface LongWatch<Result> {
	/** Ends it at once; it then resolves with what finished, marked partial, or rejects. */
	readonly signal: AbortSignal;
	readonly onProgress: (progress: LongProgress) => void;
	/** Takes the figures so far, where there are any worth showing. */
	readonly onPartial: (result: Result) => void;
}

export type LongStatus =
	| { readonly state: 'idle'; readonly note: string }
	/** It begins when the page's own run is over. */
	| { readonly state: 'waiting' }
	/** `of`: the inputs as they are, or the pinned baseline's, for comparison. */
	| ({ readonly state: 'running'; readonly of: 'present' | 'baseline' } & LongProgress)
	| { readonly state: 'done'; readonly seconds: number }
	| { readonly state: 'failed'; readonly message: string };

/** A result with what it was asked with. */
export interface Answered<Asked, Result> {
	readonly asked: Asked;
	readonly result: Result;
	/** Figures while it goes on; of a run that was stopped; of a whole one. */
	readonly is: 'so far' | 'stopped' | 'finished';
	/** The scenario file that it was read from. */
	readonly document: JsonObject | null;
}

interface LongQuestionOptions<Asked, Result> {
	readonly model: Pick<PageModel, 'status' | 'inputs' | 'against' | 'services' | 'shown' | 'scenario'>;
	/** What would be asked now, with all that the view lets one choose; null while any of it has a problem. */
	readonly request: ReadonlySignal<Asked | null>;
	readonly run: (asked: Asked, watch: LongWatch<Result>) => Promise<Result>;
	/** Where finished answers outlive the page; nowhere if not given. */
	readonly kept?: KeptAnswers<Result> | undefined;
	/** The same asked of the baseline's scenario; null where it cannot be. */
	readonly ofBaseline?: (asked: Asked, baseline: Scenario) => Asked | null;
	/** The answer in a sentence, for those who listen. */
	readonly sentence: (result: Result) => string;
}

/** So many finished answers are kept, to be shown at once when an edit is taken back. */
const mostKept = 8;

/**
 * A question that takes its time on workers of its own. It is first asked when
 * its view is opened and the page is at rest, unless an earlier visit left the
 * answer; after an edit its answer stays, marked as of older inputs, and is asked
 * again when the reader wants it. Work that an edit makes stale is ended. Where a
 * baseline is pinned, the same is asked of it too.
 */
export function createLongQuestion<Asked extends LeastAsked, Result extends LeastResult>({
	model,
	request,
	run,
	kept: outliving,
	ofBaseline = (asked, scenario) => ({ ...asked, scenario }),
	sentence,
}: LongQuestionOptions<Asked, Result>) {
	type Given = Answered<Asked, Result>;
	const status = signal<LongStatus>({ state: 'idle', note: '' });
	const isOpen = signal(false);
	const latest = signal<Given | null>(null);
	const kept = signal<ReadonlyMap<string, Given>>(new Map());
	/** Looks up an answer that was kept before the page was opened; null until they are read. */
	const earlier = signal<((asked: string) => Result | null) | null>(outliving ? null : () => null);
	let isRead = false;
	let current: { readonly end: AbortController; readonly key: string } | null = null;

	const key = computed(() => keyOf(request.value));
	/** Before that, its inputs are still those that every visit begins with. */
	const hasBegun = computed(() => {
		const page = model.status.value;
		return page.state !== 'idle' || page.note !== '' || model.shown.value !== null;
	});
	const isReady = computed(() => hasBegun.value && earlier.value !== null);
	/** The finished answer to a request, of this visit or an earlier one; null where there is none. */
	function found(asked: Asked | null, document: JsonObject | null): Given | null {
		const own = keyOf(asked);
		const result = hasBegun.value && earlier.value?.(own);
		return kept.value.get(own) ?? (asked && result ? { asked, result, is: 'finished', document } : null);
	}
	const known = computed(() => found(request.value, model.inputs.document.value));
	const answer = computed<Given | null>(() => known.value ?? latest.value);
	/** The status, which says so where the answer is of an earlier visit. */
	const told = computed<LongStatus>(() => {
		const own = status.value;
		const isEarlier = known.value !== null && !kept.value.has(key.value);
		return own.state === 'idle' && own.note === '' && isEarlier
			? { state: 'idle', note: 'Figures of an earlier run of the same inputs.' }
			: own;
	});
	const isStale = computed(() => answer.value !== null && keyOf(answer.value.asked) !== key.value);
	const baselineRequest = computed<Asked | null>(() => {
		const asked = answer.value?.asked;
		const pinned = model.against.baseline.value?.shown.scenario;
		const same = asked && pinned ? ofBaseline(asked, pinned) : null;
		return same && keyOf(same) !== keyOf(asked ?? null) ? same : null;
	});
	/** The baseline's answer to what the answer on show was asked; null where there is none, or it is the one on show. */
	const ghost = computed<Given | null>(() =>
		found(baselineRequest.value, model.against.baseline.value?.document ?? null),
	);

	function keep(given: Given): void {
		const next = new Map(kept.value).set(keyOf(given.asked), given);
		for (const oldest of next.keys()) {
			if (next.size <= mostKept) break;
			next.delete(oldest);
		}
		kept.value = next;
	}

	async function ask(): Promise<void> {
		const asked = request.value;
		if (!asked) return;
		current?.end.abort();
		const own = { end: new AbortController(), key: key.value };
		current = own;
		const began = model.services.now();
		if (await one(own, asked, 'present', model.inputs.document.value)) {
			const before = baselineRequest.value;
			if (before && !ghost.value) {
				await one(own, before, 'baseline', model.against.baseline.value?.document ?? null);
			}
			if (current !== own) return;
			if (!own.end.signal.aborted) {
				status.value = { state: 'done', seconds: (model.services.now() - began) / 1000 };
			}
		}
		if (current === own) current = null;
	}

	/** @returns whether it came to its end */
	async function one(
		own: NonNullable<typeof current>,
		asked: Asked,
		of: 'present' | 'baseline',
		document: JsonObject | null,
	): Promise<boolean> {
		const { signal: ended } = own.end;
		const isCurrent = (): boolean => current === own;
		status.value = { state: 'running', of, asked: 0, finished: 0, failed: 0 };
		const show = (result: Result, is: Given['is']): void => {
			if (of === 'present') latest.value = { asked, result, is, document };
		};
		try {
			const result = await run(asked, {
				signal: ended,
				onProgress: (progress) => {
					if (isCurrent() && !ended.aborted) status.value = { state: 'running', of, ...progress };
				},
				onPartial: (result) => {
					if (isCurrent() && !ended.aborted) show(result, 'so far');
				},
			});
			if (!isCurrent()) return false;
			const { partial } = result.provenance;
			show(result, partial ? 'stopped' : 'finished');
			if (partial) status.value = { state: 'idle', note: 'Stopped; what finished is shown.' };
			else {
				keep({ asked, result, is: 'finished', document });
				outliving?.keep(keyOf(asked), result);
			}
			return !partial;
		} catch (error) {
			if (!isCurrent()) return false;
			status.value = ended.aborted
				? { state: 'idle', note: 'Stopped before anything was finished.' }
				: { state: 'failed', message: errorMessage(error) };
			return false;
		}
	}

	// an answer found again is the one that stays on show from here on
	effect(() => {
		if (!known.value) return;
		latest.value = known.value;
		if (status.peek().state === 'waiting') status.value = { state: 'idle', note: '' };
	});
	// work that an edit made stale
	effect(() => {
		const now = key.value;
		if (!current || current.key === now) return;
		current.end.abort();
		current = null;
		const soFar = latest.peek();
		if (soFar?.is === 'so far') latest.value = { ...soFar, is: 'stopped' };
		status.value = { state: 'idle', note: 'Stopped, since an input was changed.' };
	});

	// the first answer needs no asking
	effect(() => {
		const page = model.status.value;
		const isWanted = isOpen.value && request.value !== null && answer.value === null;
		const isAtRest = page.state === 'idle' || page.state === 'done' || page.state === 'failed';
		const own = status.peek();
		if (!isWanted || !isReady.value || current || own.state === 'failed' || (own.state === 'idle' && own.note)) return;
		if (isAtRest) void ask();
		else status.value = { state: 'waiting' };
	});

	async function readEarlier(): Promise<void> {
		if (!outliving || isRead) return;
		isRead = true;
		earlier.value = await outliving.read();
	}

	return {
		request,
		status: told,
		answer,
		/** True once the page has its inputs and what earlier visits left is read. */
		isReady,
		/** True where the answer on show is of other inputs than the present ones. */
		isStale,
		isOpen,
		ghost,
		/** How the answer on show differs from what would be asked now; '' where it does not. */
		staleWords: computed(() => {
			const shown = answer.value;
			if (!shown || !isStale.value) return '';
			return staleWords(shown, model.scenario.value, model.inputs.document.value);
		}),
		heard: computed(() => announcement(told.value, answer.value && sentence(answer.value.result))),
		/** Asks, or asks again. */
		ask,
		/** Ends it; what finished is shown. */
		cancel(): void {
			current?.end.abort();
			if (status.value.state === 'waiting') status.value = { state: 'idle', note: 'Stopped before it began.' };
		},
		/** Told by the view when it comes and goes. */
		setOpen(open: boolean): void {
			isOpen.value = open;
			if (open) void readEarlier();
		},
	};
}

const keyOf = (asked: LeastAsked | null): string => (asked ? JSON.stringify(asked) : '');

function staleWords(
	{ asked, document }: Answered<LeastAsked, unknown>,
	scenario: Scenario | null,
	present: JsonObject | null,
): string {
	const of = `These figures are of “${asked.scenario.name}”`;
	if (!scenario) return `${of}: an input now has a problem.`;
	if (scenario.name !== asked.scenario.name) return `${of}, not of the scenario as it is now.`;
	if (document && present && !samePoints(document, present)) return `${of} with other operating points.`;
	const edits = document && present ? editsBetween(document, present) : [];
	if (edits.length === 0) return 'These figures were asked for with other settings than the present ones.';
	const named = edits.slice(0, 3).map(({ name, before, after }) => `${name} ${fromTo(before, after)}`);
	const more = edits.length > 3 ? ` and ${count(edits.length - 3)} more` : '';
	return `These figures are of earlier inputs. Changed since: ${named.join('; ')}${more}.`;
}

/** For those who listen: the start, the quarters and the answer, no more. */
function announcement(status: LongStatus, sentence: string | null): string {
	switch (status.state) {
		case 'waiting':
			return 'Begins when the run under way is over.';
		case 'running': {
			if (status.of === 'baseline') return 'Asking the same of the baseline.';
			const quarter = status.asked > 0 ? Math.floor((4 * (status.finished + status.failed)) / status.asked) * 25 : 0;
			return quarter === 0 ? 'Simulating drives for this question.' : `${quarter}\u00a0% of the drives simulated.`;
		}
		case 'done':
			return `Finished. ${sentence ?? ''}`;
		case 'failed':
			return `It failed. ${status.message}`;
		case 'idle':
			return status.note;
	}
}
