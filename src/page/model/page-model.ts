import { computed, signal } from '@preact/signals';
import type { StudyResult } from '../../../shared/study/result.ts';
import { count } from '../../../shared/words/figures.ts';
import { createRoute } from './route.ts';
import { announcement, type RunStatus } from './run-status.ts';
import { type ScenarioSource, tooLarge } from './scenario-source.ts';
import type { Reading, Services, Shown, StudyRequest } from './services.ts';
import { inputDefaults, readSeed, readUnits } from './study-inputs.ts';
import { createWhichChoice } from './which-choice.ts';

export type PageModel = ReturnType<typeof createPageModel>;

/**
 * The page's whole state: inputs, the run, the figures on show, what each view
 * makes of them, and the actions. Components read it and call it, no more.
 */
export function createPageModel(services: Services) {
	const [firstDemo] = services.demos;
	if (!firstDemo) throw new Error('the page needs at least one demo scenario');

	const route = createRoute(services.address);
	const source = signal<ScenarioSource>(firstDemo);
	const opened = signal<ScenarioSource | null>(null);
	/** Why a file could not even be read. */
	const fileProblem = signal('');
	const unitsTyped = signal<string>(inputDefaults.units);
	const seedTyped = signal<string>(inputDefaults.seed);
	const status = signal<RunStatus>({ state: 'idle', note: '' });
	const shown = signal<Shown | null>(null);

	const reading = computed(() => services.read(source.value.text));
	const scenario = computed(() => ('scenario' in reading.value ? reading.value.scenario : null));
	const problems = computed(() => ('problems' in reading.value ? reading.value.problems : []));
	const sources = computed(() => {
		const all = opened.value ? [...services.demos, opened.value] : services.demos;
		return all.map((one) => ({ source: one, title: titleOf(services.read(one.text), one) }));
	});
	const units = computed(() => readUnits(unitsTyped.value));
	const seed = computed(() => readSeed(seedTyped.value));
	/** What would be run now; null while an input has a problem. */
	const request = computed<StudyRequest | null>(() =>
		scenario.value && 'value' in units.value && 'value' in seed.value
			? { scenario: scenario.value, units: units.value.value, seed: seed.value.value }
			: null,
	);
	const whichChoice = createWhichChoice({ shown, request, status, theme: services.theme });
	const heard = computed(() => announcement(status.value, shown.value?.result ?? null));

	let current: AbortController | null = null;

	async function run(): Promise<void> {
		const asked = request.value;
		if (!asked) return;
		current?.abort();
		const own = new AbortController();
		current = own;
		const isCurrent = (): boolean => current === own;
		const began = services.now();
		status.value = { state: 'running', finished: 0, failed: 0, asked: asked.units };
		try {
			const result = await services.study(asked, {
				signal: own.signal,
				onProgress: (progress) => {
					if (isCurrent()) status.value = { state: 'running', asked: asked.units, ...progress };
				},
				onPartial: (result) => {
					if (isCurrent()) show({ ...asked, result });
				},
			});
			if (!isCurrent()) return;
			show({ ...asked, result });
			status.value = outcome(result, (services.now() - began) / 1000);
		} catch (error) {
			if (!isCurrent()) return;
			status.value = own.signal.aborted
				? { state: 'idle', note: 'Stopped before any drive was finished.' }
				: { state: 'failed', message: error instanceof Error ? error.message : String(error) };
		}
		current = null;
	}

	/** A result without a finished drive has nothing to show. */
	function show(next: Shown): void {
		if (next.result.provenance.units.finished > 0) shown.value = next;
	}

	/** Stops the run; what finished is kept and shown. */
	function cancel(): void {
		current?.abort();
	}

	/** Takes a scenario and, where everything is in order, runs it. */
	function choose(next: ScenarioSource): void {
		if (next.kind === 'file') opened.value = next;
		fileProblem.value = '';
		source.value = next;
		whichChoice.setPoint(0);
		// what is running belongs to the scenario that is left
		const left = current;
		current = null;
		left?.abort();
		status.value = { state: 'idle', note: '' };
		void run();
	}

	/** Opens a file picked or dropped by the user. */
	async function openFile(file: {
		readonly name: string;
		readonly size: number;
		text(): Promise<string>;
	}): Promise<void> {
		fileProblem.value = tooLarge(file);
		if (fileProblem.value) return;
		try {
			choose({ kind: 'file', file: file.name, text: await file.text() });
		} catch (error) {
			fileProblem.value = `${file.name} could not be read: ${error instanceof Error ? error.message : String(error)}`;
		}
	}

	/** What views that are loaded later keep, by name. */
	const parts = new Map<string, unknown>();

	return {
		route,
		services,
		/** A view's own part of the model, made when it is first asked for. */
		part<Part>(name: string, create: () => Part): Part {
			if (!parts.has(name)) parts.set(name, create());
			return parts.get(name) as Part;
		},
		source,
		sources,
		scenario,
		problems,
		fileProblem,
		unitsTyped,
		seedTyped,
		units,
		seed,
		request,
		status,
		shown,
		heard,
		whichChoice,
		run,
		cancel,
		openFile,
		chooseNth: (index: number) => {
			const next = sources.value[index];
			if (next) choose(next.source);
		},
		setUnits: (typed: string) => {
			unitsTyped.value = typed;
		},
		setSeed: (typed: string) => {
			seedTyped.value = typed;
		},
	};
}

const titleOf = (reading: Reading, source: ScenarioSource): string =>
	'scenario' in reading ? reading.scenario.name : `${source.file} (has problems)`;

function outcome({ provenance }: StudyResult, seconds: number): RunStatus {
	const { units, partial, failures } = provenance;
	if (partial)
		return { state: 'idle', note: `Stopped after ${count(units.finished)} of ${count(units.asked)} drives.` };
	if (units.finished > 0) return { state: 'done', seconds };
	const first = failures[0] ? ` The first said: ${failures[0].message}` : '';
	return { state: 'failed', message: `None of the ${count(units.asked)} drives could be simulated.${first}` };
}
