import { computed, effect, signal } from '@preact/signals';
import { shortened } from '../../../shared/scenario/read-json.ts';
import type { StudyResult } from '../../../shared/study/result.ts';
import { errorMessage } from '../../../shared/words/error-message.ts';
import { createBaseline } from './baseline.ts';
import { createDrivesHere } from './drives-here.ts';
import { createFields } from './fields.ts';
import { createInputs } from './inputs/inputs.ts';
import type { KeptWork } from './kept/kept-work.ts';
import { createOnShow } from './on-show.ts';
import { createRoute } from './route.ts';
import { announcement } from './run-status.ts';
import { createRuns } from './runs.ts';
import { noScenario, type ScenarioSource, tooLarge } from './scenario-source.ts';
import type { Reading, Services, StudyRequest } from './services.ts';
import { inputDefaults, readSeed, readUnits } from './study-inputs.ts';
import { createWhichChoice } from './which-choice.ts';

/** So many opened files and links are listed. */
const mostOpened = 6;

/** What is needed of a browser's File. */
interface PickedFile {
	readonly name: string;
	readonly size: number;
	text(): Promise<string>;
}

export type PageModel = ReturnType<typeof createPageModel>;

/**
 * The page's whole state: inputs, the run, the figures on show, what each view
 * makes of them, and the actions. Components read it and call it, no more.
 */
export function createPageModel(services: Services) {
	const [firstDemo] = services.demos;
	if (!firstDemo) throw new Error('the page needs at least one demo scenario');

	const fields = createFields(services.fields);
	const route = createRoute(services.address);
	const source = signal<ScenarioSource>(firstDemo);
	/** Files and links opened, the latest first. */
	const opened = signal<readonly ScenarioSource[]>([]);
	/** What a scenario that was left for another had been edited to: there again when it is chosen again. */
	const edited = new Map<ScenarioSource, string>();
	/** Why a file was not taken at all. */
	const fileProblem = signal('');
	const unitsTyped = signal<string>(inputDefaults.units);
	const seedTyped = signal<string>(inputDefaults.seed);

	const inputs = createInputs(services.read, () => {
		fileProblem.value = '';
		void runs.follow();
	});
	inputs.open(firstDemo.text);
	const { reading, problems } = inputs;
	const scenario = computed(() => ('scenario' in reading.value ? reading.value.scenario : null));
	const sources = computed(() => {
		return [...services.demos, ...opened.value].map((one) => ({
			source: one,
			title: titleOf(services.read(one.text), one),
		}));
	});
	const units = computed(() => readUnits(unitsTyped.value));
	const seed = computed(() => readSeed(seedTyped.value));
	/** What would be run now; null while an input has a problem. */
	const request = computed<StudyRequest | null>(() =>
		scenario.value && 'value' in units.value && 'value' in seed.value
			? { scenario: scenario.value, units: units.value.value, seed: seed.value.value }
			: null,
	);
	const pointIndex = signal(0);
	const runs = createRuns(services, request, pointIndex);
	const { status, state, shown } = runs;
	const show = createOnShow({ runs, request, pointIndex });
	const against = createBaseline({ services, runs, request, document: inputs.document, ...show });
	const whichChoice = createWhichChoice({ ...runs, request, pointIndex, show, against, theme: services.theme });
	const drivesHere = createDrivesHere({ ...runs, ...show, drivesNear: services.drivesNear });
	const heard = computed(() => announcement(status.value, shown.value?.result ?? null));

	// told once: who looks at another view, edits or runs again has gone on from it
	effect(() => {
		if (route.view.value) fileProblem.value = '';
	});
	effect(() => {
		const hash = route.lost.value;
		if (hash) fileProblem.value = `The link ${shortened(hash)} names no view of this page.`;
	});
	function run(): Promise<void> {
		fileProblem.value = '';
		return runs.run();
	}

	/** Turns to another scenario; nothing of the present one is lost. */
	function turnTo(next: ScenarioSource, text = edited.get(next)): void {
		const { value: present } = source;
		if (inputs.text.value === present.text) edited.delete(present);
		else edited.set(present, inputs.text.value);
		if (next.kind === 'file' && !opened.value.includes(next)) {
			// one of the same name that was left as it was is the same file, read again
			const others = opened.value.filter((one) => one.file !== next.file || edited.has(one));
			opened.value = [next, ...others].slice(0, mostOpened);
		}
		fileProblem.value = '';
		source.value = next;
		inputs.open(next.text, text);
	}

	/** Takes a scenario and, where everything is in order, runs it. */
	function choose(next: ScenarioSource): void {
		turnTo(next);
		whichChoice.setPoint(0);
		runs.leave();
		void runs.run();
	}

	/** Opens a file picked or dropped by the user; one that is no scenario at all leaves everything as it is. */
	async function openFile(file: PickedFile): Promise<void> {
		fileProblem.value = tooLarge(file);
		if (fileProblem.value) return;
		try {
			const text = await file.text();
			fileProblem.value = noScenario(file.name, text);
			if (!fileProblem.value) choose({ kind: 'file', file: file.name, text });
		} catch (error) {
			fileProblem.value = `${file.name} could not be read: ${errorMessage(error)}`;
		}
	}

	/**
	 * Files dropped on the page, of which one at a time is taken: a list of values measures a part, any other is a scenario.
	 *
	 * @param rowKey of the row that they were dropped on, or that plainly has the focus; '' for none
	 */
	async function dropFiles(files: readonly PickedFile[], rowKey: string): Promise<void> {
		const [file] = files;
		if (file === undefined) return;
		if (files.length > 1) {
			fileProblem.value = `${files.length} files were dropped, and one at a time is taken: none was opened.`;
			return;
		}
		if (!/\.(csv|tsv|txt)$/i.test(file.name)) return openFile(file);
		// not the row that was edited last: that may be long out of sight, and its part would change unseen
		const row = inputs.rows.value.find(({ key }) => key === rowKey);
		fileProblem.value = row ? '' : `${file.name} is a list of values: drop it on the row of the part it measures.`;
		if (row) await inputs.measure(row, file);
	}

	/** Takes up work as it was left or shared: its inputs, and its figures where they came along; else they are run. */
	function resume(work: KeptWork, result: StudyResult | null, note: string): void {
		const demo = services.demos.find(({ file, text }) => file === work.file && text === work.base);
		const next = demo ?? { kind: 'file' as const, file: work.file, text: work.base };
		turnTo(next, work.text);
		unitsTyped.value = work.units;
		seedTyped.value = work.seed;
		whichChoice.setPoint(work.point);
		runs.leave();
		if (result && request.value) runs.adopt({ ...request.value, result }, note);
		else void runs.run();
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
		fields,
		inputs,
		against,
		onShow: show.onShow,
		background: runs.background,
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
		state,
		shown,
		heard,
		whichChoice,
		drivesHere,
		run,
		follow: runs.follow,
		cancel: runs.cancel,
		openFile,
		resume,
		/** The inputs as they stand, to be kept or shared. */
		work: computed(
			(): KeptWork => ({
				file: source.value.file,
				base: source.value.text,
				text: inputs.text.value,
				units: unitsTyped.value,
				seed: seedTyped.value,
				point: pointIndex.value,
			}),
		),
		dropFiles,
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
