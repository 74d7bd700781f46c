import { computed, effect, type ReadonlySignal, untracked } from '@preact/signals';
import { type ChoiceName, choiceNames, type PerChoice } from '../../../../shared/drive/drive.ts';
import { perChoice } from '../../../../shared/drive/per-choice.ts';
import type { DriveRequest } from '../../../../shared/one-drive/drive-request.ts';
import type { DriveWindow, SectorEvents } from '../../../../shared/one-drive/drive-window.ts';
import { type PointVerdict, pointVerdicts } from '../../../../shared/one-drive/point-verdict.ts';
import type { PairOutcome } from '../../../../shared/one-drive/unit-outcomes.ts';
import type { OperatingPoint } from '../../../../shared/scenario/scenario.ts';
import type { StudyPlan } from '../../../../shared/study/plan.ts';
import { inDegrees } from '../../../../shared/words/change.ts';
import { count, signedDegrees } from '../../../../shared/words/figures.ts';
import { levelWords } from '../../../../shared/words/level.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import type { DriveLab } from '../../../host/drive-lab.ts';
import { type Baseline, isSameScenario } from '../baseline.ts';
import { fromTo } from '../change-words.ts';
import type { Shown } from '../services.ts';
import { stable } from './stable.ts';
import { latestWork } from './work.ts';

interface Seen {
	readonly baseline: ReadonlySignal<Baseline | null>;
	readonly shown: ReadonlySignal<Shown | null>;
	/** The drive on show, and how it does at its point over all its starts. */
	readonly request: ReadonlySignal<DriveRequest | null>;
	readonly verdicts: ReadonlySignal<PerChoice<PointVerdict> | null>;
}

/** The drive of the same index in the baseline, or why there is none. */
type Counterpart = { readonly drive: DriveRequest } | { readonly words: string };

/** All sectors are in the answer for a window of any length: nobody draws the baseline's traces. */
const noTraces = { from: 0, to: 1e-9, columns: 1 };

/**
 * The drive of the same index in the pinned baseline, simulated again from the baseline's inputs and seed. Where the seed
 * is the present one, that is the drive on show with the same parts and moments; where it is not, it is another drive,
 * and every text says so. Exact as the drive on show is.
 */
export function createBaselineDrive({ baseline, shown, request, verdicts }: Seen, lab: DriveLab) {
	const plan = stable(
		computed((): StudyPlan | null => {
			const [pinned, present] = [baseline.value?.shown, shown.value];
			if (!pinned || !present) return null;
			const { scenario, seed } = pinned;
			const own = { scenario, seed, compensation: pinned.result.provenance.compensation };
			if (seed !== present.seed) return own;
			if (isSameScenario(pinned, present)) return null;
			const { points } = present.scenario;
			// a point that moved within the file still meets the moments of the one on show
			const pointKeys = scenario.points.map(({ name }, i) => {
				const here = points.findIndex((point) => point.name === name);
				return here < 0 ? i : here;
			});
			return { ...own, pointKeys };
		}),
		(one, other) =>
			one.scenario === other.scenario &&
			one.seed === other.seed &&
			one.pointKeys?.join() === other.pointKeys?.join() &&
			choiceNames.every((choice) => one.compensation[choice] === other.compensation[choice]),
	);
	const counterpart = computed((): Counterpart | null => {
		const [of, present] = [plan.value, request.value];
		if (!of || !present) return null;
		if (present.board) return { words: 'A measured board has no counterpart in the baseline.' };
		const { scenario } = present.plan;
		const name = scenario.points[present.point]?.name ?? '';
		const point = of.scenario.points.findIndex((one) => one.name === name);
		if (point < 0) return { words: `The baseline has no point ${name} to hold this drive against.` };
		const [before, now] = [startsOf(of), startsOf(present.plan)];
		if (before !== now) {
			return {
				words: `The baseline has ${count(before)} starts a point, not ${count(now)}: none of them meets the moments of this one.`,
			};
		}
		return { drive: { plan: of, unit: present.unit, point, start: present.start } };
	});
	const drive = stable(
		computed(() => (counterpart.value && 'drive' in counterpart.value ? counterpart.value.drive : null)),
		(one, other) =>
			one.plan === other.plan && one.unit === other.unit && one.point === other.point && one.start === other.start,
	);

	/** Drawn with another seed: nothing but the index is the same. */
	const isOther = computed(() => {
		const [of, present] = [plan.value, request.value];
		return of !== null && present !== null && of.seed !== present.plan.seed;
	});

	const outcomes = latestWork<readonly PairOutcome[]>();
	const run = latestWork<DriveWindow>();
	let outcomesOf: Pick<DriveRequest, 'plan' | 'unit'> | null = null;
	effect(() => {
		const of = drive.value;
		if (!of) return;
		untracked(() => {
			void run.begin(() => lab.window({ drive: of, ...noTraces }));
			// of all its points and starts
			if (outcomesOf?.plan === of.plan && outcomesOf.unit === of.unit) return;
			outcomesOf = of;
			void outcomes.begin(() => lab.outcomes(of.plan, of.unit));
		});
	});

	/** From every start at the point. */
	const pairs = computed(() => {
		const of = drive.value;
		const starts = of ? startsOf(of.plan) : 0;
		return of ? (outcomes.work.value.value?.slice(of.point * starts, (of.point + 1) * starts) ?? null) : null;
	});
	const window = computed(() => (drive.value ? run.work.value.value : null));
	const before = computed(() => {
		const of = drive.value;
		const point = of?.plan.scenario.points[of.point];
		return of && point && pairs.value ? pointVerdicts(pairs.value, of.plan.scenario, point as OperatingPoint) : null;
	});

	/** Why it is another drive, and what that leaves of the comparison. */
	const otherWords = ({ unit, plan: { seed } }: DriveRequest): string => {
		const pinned = baseline.value?.shown;
		const counted =
			pinned && unit >= pinned.units
				? ` Drive ${count(unit)} lies beyond the baseline's ${count(pinned.units)} drives and is in none of its figures.`
				: '';
		return `Seed ${pinned?.seed} draws other parts, moments and noise than seed ${seed}: more than the inputs sets the two apart.${counted}`;
	};
	/** What it had in a figure's place; of another drive no step is taken. */
	const was: typeof wasWords = (before, after, figure = signedDegrees) =>
		isOther.value ? `baseline's ${figure(before)}` : wasWords(before, after, figure);

	return {
		/** What became of the drive since, and what that is of; null where there is nothing to tell. */
		change: computed(() => {
			const [was, is, of] = [before.value, verdicts.value, request.value];
			if (!was || !is || !of) return null;
			const each = choiceNames.map((choice) => {
				const judged = (one: PointVerdict): string => (one.shortcoming === null ? 'passes' : 'fails');
				const [then, now] = [was[choice], is[choice]];
				const verdict = judged(then) === judged(now) ? judged(now) : fromTo(judged(then), judged(now));
				return `${choiceWords[choice]} ${changeOf(then.judgedError, now.judgedError)} (${verdict})`;
			});
			const { values, points } = of.plan.scenario;
			const at = points[of.point]?.name;
			const starts = is.halfBus.starts === 1 ? 'its one start' : `its ${count(is.halfBus.starts)} starts`;
			const figure = `What ${levelWords(values['requirement.quantile'] as number)} of its commutations keep within over ${starts}.`;
			return isOther.value
				? {
						lead: `Against the baseline's drive ${count(of.unit)} at ${at}, which is another drive: ${each.join('; ')}.`,
						basis: `${figure} ${otherWords(of)}`,
					}
				: {
						lead: `Since the baseline, the same drive at ${at}: ${each.join('; ')}.`,
						basis: `${figure} It was simulated again under the baseline's inputs, with the same index, seed and moments; one drive is exact, so there is no interval.`,
					};
		}),
		/** Why there is nothing to hold the drive against, or what is missing; '' where all is there. */
		note: computed((): string => {
			const found = counterpart.value;
			if (!found) return '';
			if ('words' in found) return found.words;
			const failed = [outcomes.work.value, run.work.value].find(({ state }) => state === 'failed');
			const notSimulated = pairs.value?.find((pair) => 'failure' in pair);
			const why = failed?.message ?? (notSimulated && 'failure' in notSimulated ? notSimulated.failure : '');
			const which = isOther.value
				? "The baseline's own drive of this index"
				: "The same drive under the baseline's inputs";
			if (why) return `${which} could not be simulated: ${why}`;
			return pairs.value && window.value ? '' : `${which} is being simulated …`;
		}),
		/** How it did from a start: "was 6.10°: −1.90°"; '' where it is not known. */
		wasFrom: (start: number, choice: ChoiceName, now: number): string => {
			const pair = pairs.value?.[start];
			return pair && !('failure' in pair) ? was(pair[choice].judgedError, now, inDegrees.figure) : '';
		},
		was,
		/** Its sectors from the start on show, by number; null where they are not known. */
		sectors: computed((): PerChoice<ReadonlyMap<number, SectorEvents>> | null => {
			const of = window.value;
			return of && perChoice((choice) => new Map(of.runs[choice].sectors.map((events) => [events.sector, events])));
		}),
		/** Whose marks can be laid over the run on show: at another speed its sectors are elsewhere. */
		marksAt: (degreesPerSecond: number): DriveWindow | null =>
			window.value?.degreesPerSecond === degreesPerSecond ? window.value : null,
		/** Why its marks are not in the picture though its run is known; '' where they are, or it is not. */
		noMarks: (degreesPerSecond: number): string =>
			window.value && window.value.degreesPerSecond !== degreesPerSecond
				? `${isOther.value ? "The baseline's drive" : "Under the baseline's inputs this drive"} turns at another speed: its marks are not in the picture.`
				: '',
	};
}

const startsOf = ({ scenario }: StudyPlan): number => scenario.values['trial.starts'] as number;

/** "6.10° → 4.20°, −1.90°" */
function changeOf(before: number, after: number): string {
	const step = Number.isFinite(after - before) ? `, ${signedDegrees(after - before)}` : '';
	return `${fromTo(inDegrees.figure(before), inDegrees.figure(after))}${step}`;
}

/** "was +6.10°: −1.90°" */
export function wasWords(before: number, after: number, figure: (value: number) => string = signedDegrees): string {
	const step = Number.isFinite(after - before) ? `: ${signedDegrees(after - before)}` : '';
	return `was ${figure(before)}${step}`;
}
