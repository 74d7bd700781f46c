import { computed, effect, type ReadonlySignal, signal, untracked } from '@preact/signals';
import { type ChoiceName, choiceNames } from '../../../../shared/drive/drive.ts';
import { boardText, readBoardText } from '../../../../shared/one-drive/board-text.ts';
import { drawBoard } from '../../../../shared/one-drive/build-request.ts';
import type { BoardValues, DriveRequest } from '../../../../shared/one-drive/drive-request.ts';
import { pointVerdicts, verdictWords } from '../../../../shared/one-drive/point-verdict.ts';
import type { PairOutcome } from '../../../../shared/one-drive/unit-outcomes.ts';
import { unusualParts } from '../../../../shared/one-drive/unusual-parts.ts';
import { whatWentWrong } from '../../../../shared/one-drive/what-went-wrong.ts';
import { worstStart } from '../../../../shared/one-drive/worst-start.ts';
import type { Problem } from '../../../../shared/scenario/scenario.ts';
import type { StudyPlan } from '../../../../shared/study/plan.ts';
import { requirementOf } from '../../../../shared/study/unit-passes.ts';
import { count } from '../../../../shared/words/figures.ts';
import type { DriveLab } from '../../../host/drive-lab.ts';
import type { Baseline } from '../baseline.ts';
import type { Route, ViewName } from '../route.ts';
import type { Shown, StudyRequest } from '../services.ts';
import { ofOtherInputs } from '../which-choice.ts';
import { createBaselineDrive } from './baseline-drive.ts';
import { driveQuestion } from './drive-question.ts';
import { createDriveScope } from './drive-scope.ts';
import { stable } from './stable.ts';
import { latestWork } from './work.ts';

export type OneDrive = ReturnType<typeof createOneDrive>;

interface Seen {
	readonly shown: ReadonlySignal<Shown | null>;
	readonly request: ReadonlySignal<StudyRequest | null>;
	readonly baseline: ReadonlySignal<Baseline | null>;
	/** Index of the operating point on show elsewhere. */
	readonly pointIndex: ReadonlySignal<number>;
	readonly view: ReadonlySignal<ViewName>;
	readonly details: ReadonlySignal<Route['details']>;
	readonly refine: (details: Route['details']) => void;
}

export interface PickedDrive {
	readonly unit: number;
	readonly point: number;
	/** Null: the start that goes worst, as soon as that is known. */
	readonly start: number | null;
}

/** A board with the drive whose place it takes. */
interface TakenBoard extends Pick<PickedDrive, 'unit' | 'point'> {
	readonly values: BoardValues;
	readonly plan: StudyPlan;
}

/** Of fewer finished drives the worst is hardly bad. */
const fewest = 100;
/** Units beyond this are no drives of a study (shared/sampling/keyed-noise.ts). */
const mostUnits = 2 ** 32;

/** Everything of the view "one drive": which drive, how it went, why, and its run to look into. */
export function createOneDrive(
	{ shown, request: asked, baseline, pointIndex, view, details, refine }: Seen,
	lab: DriveLab,
) {
	/** Whose list of the worst units is shown. */
	const worstOf = signal<ChoiceName>(choiceNames[0]);
	const unitTyped = signal<string | null>(null);
	const taken = signal<TakenBoard | null>(null);
	const boardTyped = signal('');
	const boardProblems = signal<readonly Problem[]>([]);

	const plan = stable(
		computed((): StudyPlan | null => {
			const of = shown.value;
			return of && { scenario: of.scenario, seed: of.seed, compensation: of.result.provenance.compensation };
		}),
		(one, other) =>
			one.scenario === other.scenario &&
			one.seed === other.seed &&
			choiceNames.every((choice) => one.compensation[choice] === other.compensation[choice]),
	);
	const points = computed(() => plan.value?.scenario.points ?? []);
	const starts = computed(() => Number(plan.value?.scenario.values['trial.starts'] ?? 0));

	/** What the address asks for, as far as the study has it. */
	const picked = stable(
		computed((): PickedDrive | null => {
			const { unit, point = String(pointIndex.value), start } = details.value;
			if (view.value !== 'one-drive' || unit === undefined || points.value.length === 0) return null;
			const index = wholeNumber(unit, mostUnits);
			if (index === null) return null;
			return {
				unit: index,
				point: wholeNumber(point, points.value.length) ?? 0,
				start: start === undefined ? null : wholeNumber(start, starts.value),
			};
		}),
		(one, other) => one.unit === other.unit && one.point === other.point && one.start === other.start,
	);
	/** A board states its own conditions: at another point, or for another unit or scenario, it would pass for what it is not. */
	const isElsewhere = computed(() => {
		const [of, which, current] = [taken.value, picked.value, plan.value];
		return Boolean(of && which && (of.unit !== which.unit || of.point !== which.point || of.plan !== current));
	});
	const board = computed(() => (isElsewhere.value ? null : (taken.value?.values ?? null)));
	// let go, so that it is not there again when its drive is
	effect(() => {
		if (isElsewhere.value) taken.value = null;
	});
	const worst = computed(() => {
		const at = picked.value?.point ?? Math.min(pointIndex.value, points.value.length - 1);
		return shown.value?.result.points[at]?.choices[worstOf.value].worst ?? [];
	});

	// without a drive in the address: the worst one there is, once there are some to choose from, and then that one
	effect(() => {
		if (view.value !== 'one-drive' || details.value.unit !== undefined) return;
		const units = shown.value?.result.provenance.units;
		if (!units || units.finished + units.failed < Math.min(units.asked, fewest)) return;
		const [first] = worst.value;
		if (first) refine({ unit: String(first.unit), point: String(Math.min(pointIndex.value, points.value.length - 1)) });
	});

	const outcomes = latestWork<readonly PairOutcome[]>();
	// of all its points and starts: another of these asks nothing anew
	const pickedUnit = computed(() => picked.value?.unit);
	effect(() => {
		const of = plan.value;
		const unit = pickedUnit.value;
		if (of && unit !== undefined) void outcomes.begin(() => lab.outcomes(of, unit));
	});
	const start = computed((): number | null => {
		const of = picked.value;
		if (!of || of.start !== null) return of?.start ?? null;
		const { state, value } = outcomes.work.value;
		if (state === 'failed') return 0;
		return value && worstStart(value, of.point, starts.value);
	});
	const request = stable(
		computed((): DriveRequest | null => {
			const [of, which, at] = [plan.value, picked.value, start.value];
			if (!of || !which || at === null) return null;
			const base = { plan: of, unit: which.unit, point: which.point, start: at };
			return board.value ? { ...base, board: board.value } : base;
		}),
		(one, other) =>
			one.plan === other.plan &&
			one.unit === other.unit &&
			one.point === other.point &&
			one.start === other.start &&
			one.board === other.board,
	);

	const causes = latestWork<readonly PairOutcome[]>();
	const scope = createDriveScope(lab);
	effect(() => {
		const of = request.value;
		if (!of) return;
		// what they look at on the way begins nothing anew: a picture that is laid out anew keeps its view
		untracked(() => {
			void scope.open(of);
			void causes.begin(() => lab.causes(of));
		});
	});

	/** What the address asks for and the study has not. */
	const notThere = computed((): readonly string[] => {
		const which = picked.value;
		if (!which) return [];
		const { point, start: first } = details.value;
		const units = shown.value?.result.provenance.units.asked ?? mostUnits;
		const words: string[] = [];
		if (which.unit >= units) {
			words.push(
				`The study has no drive ${count(which.unit)}: its ${count(units)} drives count from 0. This one is built by the same rules and is in none of its figures.`,
			);
		}
		if (point !== undefined && wholeNumber(point, points.value.length) === null) {
			const name = points.value[which.point]?.name;
			words.push(
				`The link's point ${quoted(point)} is not there: in a link points count from 0 to ${points.value.length - 1}. Shown is ${name}.`,
			);
		}
		if (first !== undefined && which.start === null) {
			words.push(
				`The link's start ${quoted(first)} is not there: in a link starts count from 0 to ${starts.value - 1}. The start that goes worst is shown.`,
			);
		}
		return words;
	});

	const requirement = computed(() => plan.value && requirementOf(plan.value.scenario));
	/** The drive over all its starts at the point; null while they are simulated, and of a board, which runs from one. */
	const verdicts = computed(() => {
		const [of, which] = [plan.value, picked.value];
		const { state, value } = outcomes.work.value;
		const point = which && points.value[which.point];
		if (!of || !point || state !== 'done' || !value || board.value) return null;
		return pointVerdicts(value.slice(which.point * starts.value, (which.point + 1) * starts.value), of.scenario, point);
	});
	const before = createBaselineDrive({ baseline, shown, request, verdicts }, lab);
	/** None while it is not yet known which run to look at: what was found last is another drive's. */
	const diagnoses = computed(() => {
		const { value } = causes.work.value;
		const limits = requirement.value;
		if (!request.value || !value || !limits) return [];
		const name = points.value[request.value.point]?.name ?? '';
		const of = verdicts.value;
		return whatWentWrong(value, limits).map((one) => ({
			...one,
			verdict: of ? verdictWords(of[one.choice], limits, name) : '',
		}));
	});
	const question = computed(() => {
		const [asItIs] = causes.work.value.value ?? [];
		const limit = requirement.value?.angleLimit ?? Number.NaN;
		const isNoted =
			diagnoses.value.length === 0 || !asItIs || 'failure' in asItIs
				? null
				: diagnoses.value.some(({ choice, trouble }) => trouble !== 'none' || asItIs[choice].largestError > limit);
		const point = points.value[picked.value?.point ?? 0]?.name ?? '';
		return driveQuestion({ point, isBoard: board.value !== null, verdicts: verdicts.value, isNoted });
	});
	const drawn = computed(() => {
		const of = request.value;
		return of && (of.board ?? drawBoard(of));
	});

	return {
		plan,
		points,
		starts,
		/** A board runs once, from the start on show; the starts beside it are the drawn drive's. */
		startsOf: computed(() => (board.value ? 'Starts of the drawn drive at this point' : 'Its starts at this point')),
		picked,
		start,
		request,
		worst,
		worstOf,
		board,
		boardTyped,
		boardProblems,
		outcomes: outcomes.work,
		causes: causes.work,
		scope,
		requirement,
		/** What must be known before the drive is taken for the one asked for. */
		reservations: computed(() => [...(shown.value ? ofOtherInputs(shown.value, asked.value) : []), ...notThere.value]),
		/** The pinned baseline's drive of the same index. */
		before,
		diagnoses,
		/** What there is to ask of it: the view's heading. */
		question,
		/** Why the drive itself could not be simulated; '' where it could. */
		failure: computed(() => {
			const { state, message, value } = causes.work.value;
			if (!request.value) return '';
			if (state === 'failed') return message;
			const [asItIs] = value ?? [];
			return asItIs && 'failure' in asItIs ? asItIs.failure : '';
		}),
		parts: computed(() => {
			const [of, values] = [plan.value, drawn.value];
			return of && values ? unusualParts(of.scenario, values.values, values.deviations) : [];
		}),
		/** What the drive meets at this start, by id. */
		conditions: computed(() => drawn.value?.values ?? null),
		unitTyped: computed(
			() => unitTyped.value ?? (picked.value ? String(picked.value.unit) : (details.value.unit ?? '')),
		),
		unitProblem: computed(() => {
			const typed = unitTyped.value ?? details.value.unit;
			if (typed === undefined || typed === '' || wholeNumber(typed.trim(), mostUnits) !== null) return '';
			return `${quoted(typed)} is not the index of a drive: a whole number from 0.`;
		}),
		typeUnit: (typed: string) => {
			unitTyped.value = typed;
		},
		/** Looks at the drive whose index was typed. */
		takeTyped(): void {
			const typed = (unitTyped.value ?? '').trim();
			if (wholeNumber(typed, mostUnits) !== null) this.pick({ unit: Number(typed), start: null });
		},
		pick(part: Partial<PickedDrive>): void {
			const before = picked.value ?? { unit: 0, point: pointIndex.value, start: null };
			const next = { ...before, ...part };
			unitTyped.value = null;
			refine({
				unit: String(next.unit),
				point: String(next.point),
				...(next.start !== null && { start: String(next.start) }),
			});
		},
		rank: (choice: ChoiceName) => {
			worstOf.value = choice;
		},
		typeBoard: (typed: string) => {
			boardTyped.value = typed;
		},
		/** Puts the drive's own values into the text, to be edited. */
		fillBoard(): void {
			const of = request.value;
			if (!of) return;
			boardTyped.value = boardText(drawBoard(of), `unit ${of.unit}`);
			boardProblems.value = [];
		},
		/** Simulates the text's values in place of the drawn ones. */
		takeBoard(): void {
			const [of, which] = [plan.value, picked.value];
			if (!of || !which) return;
			const reading = readBoardText(boardTyped.value, of.compensation);
			boardProblems.value = 'problems' in reading ? reading.problems : [];
			if ('board' in reading) taken.value = { values: reading.board, plan: of, unit: which.unit, point: which.point };
		},
		dropBoard(): void {
			taken.value = null;
			boardProblems.value = [];
		},
	};
}

const quoted = (typed: string): string => `“${typed.length > 20 ? `${typed.slice(0, 19)}…` : typed}”`;

/** A whole number from 0, below `end`; null where the text is none. */
function wholeNumber(text: string, end: number): number | null {
	if (!/^\d{1,10}$/.test(text)) return null;
	const value = Number(text);
	return value < end ? value : null;
}
