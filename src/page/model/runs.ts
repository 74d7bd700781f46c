import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { Scenario } from '../../../shared/scenario/scenario.ts';
import type { StudyResult } from '../../../shared/study/result.ts';
import { errorMessage } from '../../../shared/words/error-message.ts';
import { count } from '../../../shared/words/figures.ts';
import type { RecordTicket } from '../../host/record-shelf.ts';
import type { RunStatus } from './run-status.ts';
import type { Previewed, Services, Shown, StudyRequest } from './services.ts';

/** Drives of a preview. */
export const previewUnits = 300;
/** How long superseded work may finish what it is at before its workers are ended, ms. */
const patience = 400;
/** So many finished results are kept, to be shown at once when an edit is taken back. */
const mostKept = 6;

interface Run {
	/** Ends it at once. */
	readonly end: AbortController;
	/** Ends it gently, for work that is superseded. */
	readonly stop: AbortController;
}

/** Does work, one after the other, that gives way to every run: it is stopped, gently, when one begins. */
export type Background = (
	work: (signals: { readonly end: AbortSignal; readonly stop: AbortSignal }) => Promise<void>,
) => Promise<void>;

/**
 * The page's runs, one at a time, and the figures that they gave. An edit, as a
 * first visit, is followed by a preview at the point on show and then by the full number; work
 * that a newer request supersedes is stopped and its figures are not shown.
 */
export function createRuns(
	services: Pick<Services, 'study' | 'preview' | 'now'>,
	request: ReadonlySignal<StudyRequest | null>,
	/** Index of the operating point on show. */
	point: ReadonlySignal<number>,
) {
	const status = signal<RunStatus>({ state: 'idle', note: '' });
	/** The same without how far it is, which changes ten times a second: for all that does not show that. */
	const state = computed(() => status.value.state);
	const shown = signal<Shown | null>(null);
	const preview = signal<Previewed | null>(null);
	const kept = new Map<Scenario, Shown>();
	let current: Run | null = null;
	/** Of all background work; a run that begins stops it whole. */
	let aside: Run = controllers();
	let queue: Promise<void> = Promise.resolve();

	const background: Background = (work) => {
		const { end, stop } = aside;
		const turn = queue.then(() => (stop.signal.aborted ? undefined : work({ end: end.signal, stop: stop.signal })));
		queue = turn.catch(() => {});
		return turn;
	};

	/**
	 * The units behind figures that came without them, as kept ones do: the same
	 * drives simulated again in a quiet moment. Null where it gave way to a run, or
	 * where they are not the very same drives.
	 */
	async function recordFor(of: Shown): Promise<RecordTicket | null> {
		if (of.record) return of.record;
		let found: RecordTicket | null = null;
		await background(async ({ end, stop }) => {
			const none = (): void => {};
			const watch = { signal: end, stop, onProgress: none, onPartial: none };
			const { result, record } = await services.study(of, watch);
			if (result.provenance.resultDigest === of.result.provenance.resultDigest) found = record;
		});
		if (found && shown.value === of) shown.value = { ...of, record: found };
		return found;
	}

	/** Takes the place of the run under way, if there is one. */
	function begin(isGentle: boolean): Run {
		supersede(isGentle);
		const own = controllers();
		current = own;
		return own;
	}
	function supersede(isGentle: boolean): void {
		halt(aside, isGentle);
		halt(current, isGentle);
		aside = controllers();
		current = null;
	}

	/** Runs what is asked now. */
	async function run(): Promise<void> {
		const asked = request.value;
		if (asked) await full(asked, begin(false));
	}

	/** What the page asks by itself, after an edit or on a first visit: a quick look at the point on show, then the full number. */
	async function follow(): Promise<void> {
		const asked = request.value;
		const own = begin(true);
		status.value = { state: 'idle', note: '' };
		if (!asked) {
			current = null;
			return;
		}
		const known = kept.get(asked.scenario);
		if (known && known.units === asked.units && known.seed === asked.seed) {
			current = null;
			shown.value = known;
			status.value = { state: 'idle', note: 'Figures of an earlier run of the same inputs.' };
			return;
		}
		const at = Math.min(point.value, asked.scenario.points.length - 1);
		const units = Math.min(previewUnits, asked.units);
		status.value = { state: 'previewing', finished: 0, asked: units };
		try {
			const quick = await services.preview(
				{ ...asked, units, point: at },
				{
					signal: own.end.signal,
					stop: own.stop.signal,
					onPartial: (partial) => {
						if (current !== own) return;
						preview.value = { ...asked, pointIndex: at, preview: partial };
						status.value = { state: 'previewing', finished: partial.units.finished, asked: units };
					},
				},
			);
			if (current !== own) return;
			if (quick) preview.value = { ...asked, pointIndex: at, preview: quick };
			if (own.end.signal.aborted) {
				current = null;
				status.value = { state: 'idle', note: stoppedWithin(quick?.units.finished ?? 0) };
				return;
			}
		} catch (error) {
			if (current !== own) return;
			fail(own, error);
			return;
		}
		await full(asked, own);
	}

	async function full(asked: StudyRequest, own: Run): Promise<void> {
		const isCurrent = (): boolean => current === own;
		const began = services.now();
		const seconds = (): number => (services.now() - began) / 1000;
		status.value = { state: 'running', finished: 0, failed: 0, asked: asked.units, seconds: 0 };
		try {
			const { result, record } = await services.study(asked, {
				signal: own.end.signal,
				stop: own.stop.signal,
				onProgress: (progress) => {
					if (isCurrent()) status.value = { state: 'running', asked: asked.units, ...progress, seconds: seconds() };
				},
				onPartial: (result, record) => {
					if (isCurrent()) show({ ...asked, result, record });
				},
			});
			if (!isCurrent()) return;
			const finished: Shown = { ...asked, result, record };
			show(finished);
			status.value = outcome(result, seconds());
			if (!result.provenance.partial) keep(finished);
		} catch (error) {
			if (!isCurrent()) return;
			fail(own, error);
		}
		current = null;
	}

	function fail(own: Run, error: unknown): void {
		current = null;
		status.value = own.end.signal.aborted
			? { state: 'idle', note: stoppedWithin(0) }
			: { state: 'failed', message: errorMessage(error) };
	}

	/** A result without a finished drive has nothing to show. */
	function show(next: Shown): void {
		if (next.result.provenance.units.finished > 0) shown.value = next;
	}

	function keep(finished: Shown): void {
		kept.delete(finished.scenario);
		kept.set(finished.scenario, finished);
		for (const oldest of kept.keys()) {
			if (kept.size <= mostKept) break;
			kept.delete(oldest);
		}
	}

	return {
		status,
		state,
		shown,
		preview,
		background,
		recordFor,
		run,
		follow,
		/** Stops the run; what finished is kept and shown. */
		cancel(): void {
			current?.end.abort();
		},
		/** Shows figures that were kept, as if they had just been worked out. */
		adopt(finished: Shown, note: string): void {
			supersede(false);
			shown.value = finished;
			if (!finished.result.provenance.partial) keep(finished);
			status.value = { state: 'idle', note };
		},
		/** Leaves the run for another scenario's. */
		leave(): void {
			supersede(false);
			status.value = { state: 'idle', note: '' };
		},
	};
}

/** @param finished drives of the preview that it was stopped within */
const stoppedWithin = (finished: number): string =>
	finished > 0
		? `Stopped within the preview, after ${count(finished)} drives.`
		: 'Stopped before any drive was finished.';

const controllers = (): Run => ({ end: new AbortController(), stop: new AbortController() });

function halt(run: Run | null, isGentle: boolean): void {
	if (!run) return;
	if (!isGentle) run.end.abort();
	else if (!run.stop.signal.aborted) {
		run.stop.abort();
		setTimeout(() => run.end.abort(), patience);
	}
}

function outcome({ provenance }: StudyResult, seconds: number): RunStatus {
	const { units, partial, failures } = provenance;
	if (partial)
		return { state: 'idle', note: `Stopped after ${count(units.finished)} of ${count(units.asked)} drives.` };
	if (units.finished > 0) return { state: 'done', seconds };
	const first = failures[0] ? ` The first said: ${failures[0].message}` : '';
	return { state: 'failed', message: `None of the ${count(units.asked)} drives could be simulated.${first}` };
}
