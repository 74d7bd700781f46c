import { computed, type ReadonlySignal, type Signal } from '@preact/signals';
import { errorBins } from '../../../shared/charts/error-bins.ts';
import { drawPictures } from '../../../shared/charts/pictures.ts';
import type { ChartTheme } from '../../../shared/charts/theme.ts';
import { confidenceLevel } from '../../../shared/study/confidence-level.ts';
import type { PointResult } from '../../../shared/study/result.ts';
import { studySentence } from '../../../shared/study/sentence.ts';
import { capital } from '../../../shared/words/capital.ts';
import { causeRows } from '../../../shared/words/cause-rows.ts';
import { conditionWords } from '../../../shared/words/conditions.ts';
import { count } from '../../../shared/words/figures.ts';
import { levelWords } from '../../../shared/words/level.ts';
import { choiceWords } from '../../../shared/words/names.ts';
import { sectorRows } from '../../../shared/words/sector-rows.ts';
import type { createBaseline } from './baseline.ts';
import { changeWords } from './change-words.ts';
import { figureGroups, rateRows } from './figure-rows.ts';
import type { createOnShow } from './on-show.ts';
import { pointTabs } from './point-tabs.ts';
import { provenanceRows } from './provenance-rows.ts';
import { isSimulating, type RunStatus } from './run-status.ts';
import { sentences } from './sentences.ts';
import type { Preview, Shown, StudyRequest } from './services.ts';
import { tally } from './tally.ts';
import { worstLinks } from './worst-links.ts';

interface Seen {
	readonly shown: ReadonlySignal<Shown | null>;
	readonly state: ReadonlySignal<RunStatus['state']>;
	readonly request: ReadonlySignal<StudyRequest | null>;
	readonly pointIndex: Signal<number>;
	readonly show: ReturnType<typeof createOnShow>;
	readonly against: Pick<ReturnType<typeof createBaseline>, 'ghost' | 'change'>;
	readonly theme: () => ChartTheme;
}

/** Everything the view "which sensing choice, and by how much" shows, from the figures on show and the operating point. */
export function createWhichChoice({ shown, state, request, pointIndex, show, against, theme }: Seen) {
	const { points, places, at, onShow } = show;
	const chartTheme = computed(theme);
	const result = computed(() => shown.value?.result ?? null);
	const answer = computed(() => {
		const present = onShow.value;
		if (!present) return null;
		const { point, preview } = present;
		const level = result.value?.provenance.level ?? confidenceLevel;
		const ghost = against.ghost.value;
		const change = against.change.value;
		const bins = errorBins(point.choices, ghost?.choices);
		const ranAs = preview ? request.value : shown.value;
		const ranges = ranAs?.scenario.points.find(({ name }) => name === point.name)?.ranges;
		return {
			overall: preview ? previewSentence(point, preview) : result.value && studySentence(result.value),
			...sentences(point.paired.sentence),
			change: change && changeWords(point.name, change, level),
			level: levelWords(level),
			tally: tally(point.paired),
			figures: figureGroups(point, ghost, change),
			rates: rateRows(point),
			causes: causeRows(point),
			sectors: sectorRows(point),
			bins,
			pictures: drawPictures(point, bins, chartTheme.value, ghost),
			hasGhost: ghost !== null,
			worst: worstLinks(point, at.value),
			conditions: conditionWords(point, ranges).all,
		};
	});

	return {
		pointIndex: at,
		tabs: computed(() => {
			const present = onShow.value;
			const pointOf = (i: number) => (i === at.value ? present?.point : present?.preview ? null : points.value[i]);
			return pointTabs(places.value.map((place, i) => ({ ...place, better: pointOf(i)?.paired.better ?? null })));
		}),
		answer,
		provenance: computed(() => (result.value ? provenanceRows(result.value) : null)),
		/** What must be known before the figures are believed. */
		reservations: computed(() => {
			const preview = onShow.value?.preview;
			return preview ? [previewWords(preview, state.value)] : reservations(shown.value, request.value, state.value);
		}),
		setPoint: (index: number) => {
			pointIndex.value = Math.max(0, index);
		},
	};
}

/** The preview's answer, for its one point. */
function previewSentence({ name, paired }: PointResult, { units }: Preview): string {
	const drives = `preview from ${count(units.finished)} drives`;
	return paired.better === 'not shown'
		? `At ${name} neither choice is shown to be better (${drives}).`
		: `${capital(choiceWords[paired.better])} is better at ${name} (${drives}).`;
}

function previewWords({ units, starts, point }: Preview, state: RunStatus['state']): string {
	const failed = units.failed > 0 ? ` (${count(units.failed)} more could not be simulated)` : '';
	return `A preview: ${count(units.finished)} drives${failed}, ${starts === 1 ? 'one start' : `${starts} starts`} each, at ${point.name} alone. ${behindPreview(state)}`;
}

/** What became of the full number while a preview is still all there is. */
function behindPreview(state: RunStatus['state']): string {
	if (isSimulating(state)) return 'The full number is being simulated behind it.';
	return state === 'failed'
		? 'The run failed before there were more figures.'
		: 'The run was stopped before there were more figures.';
}

/** What must be known before a study's figures are believed: what they are of, how far they go, what is missing. */
export function reservations(
	shown: Shown | null,
	request: StudyRequest | null,
	state: RunStatus['state'],
): readonly string[] {
	if (!shown) return [];
	const { units, partial } = shown.result.provenance;
	const words = [...ofOtherInputs(shown, request)];
	const isGoingOn = state === 'running' && words.length === 0;
	if (partial) {
		const share = `${count(units.finished)} of ${count(units.asked)} drives`;
		words.push(isGoingOn ? `Figures so far, from ${share}.` : `The run was stopped: figures from ${share}.`);
	}
	if (units.failed > 0) {
		words.push(
			`${count(units.failed)} of ${count(units.asked)} drives could not be simulated; they are in none of the figures and are listed below.`,
		);
	}
	return words;
}

/** What figures are of where they are not of the inputs in the form; nothing where they are. */
export function ofOtherInputs(shown: Shown, request: StudyRequest | null): readonly string[] {
	const { scenario, units, seed } = shown;
	if (request?.scenario === scenario && request.units === units && request.seed === seed) return [];
	const of = `“${scenario.name}”, ${count(units)} drives, seed ${seed}`;
	return [`These are the figures of ${of}, not of the inputs as they are now.`];
}

export type WhichChoiceAnswer = NonNullable<ReturnType<typeof createWhichChoice>['answer']['value']>;
