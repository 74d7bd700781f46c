import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { errorBins } from '../../../shared/charts/error-bins.ts';
import type { ChartTheme } from '../../../shared/charts/theme.ts';
import { studySentence } from '../../../shared/study/sentence.ts';
import { count } from '../../../shared/words/figures.ts';
import { levelWords } from '../../../shared/words/level.ts';
import { binRows } from './bin-rows.ts';
import { causeRows } from './cause-rows.ts';
import { conditionWords } from './conditions.ts';
import { figureGroups, rateRows } from './figure-rows.ts';
import { drawPictures } from './pictures.ts';
import { pointTabs } from './point-tabs.ts';
import { provenanceRows } from './provenance-rows.ts';
import type { RunStatus } from './run-status.ts';
import { sectorRows } from './sector-rows.ts';
import { sentences } from './sentences.ts';
import type { Shown, StudyRequest } from './services.ts';
import { tally } from './tally.ts';

interface Seen {
	readonly shown: ReadonlySignal<Shown | null>;
	readonly request: ReadonlySignal<StudyRequest | null>;
	readonly status: ReadonlySignal<RunStatus>;
	readonly theme: () => ChartTheme;
}

/** Everything the view "which sensing choice, and by how much" shows, from the figures on show and the operating point. */
export function createWhichChoice({ shown, request, status, theme }: Seen) {
	const pointIndex = signal(0);
	const chartTheme = computed(theme);
	const result = computed(() => shown.value?.result ?? null);
	const points = computed(() => result.value?.points ?? []);
	const at = computed(() => Math.min(pointIndex.value, Math.max(0, points.value.length - 1)));
	const answer = computed(() => {
		const point = points.value[at.value];
		if (!result.value || !point) return null;
		const { level } = result.value.provenance;
		const bins = errorBins(point.choices);
		return {
			overall: studySentence(result.value),
			...sentences(point.paired.sentence),
			level: levelWords(level),
			tally: tally(point.paired),
			figures: figureGroups(point),
			rates: rateRows(point),
			causes: causeRows(point),
			sectors: sectorRows(point),
			bins: bins ? binRows(bins) : [],
			pictures: drawPictures(point, bins, chartTheme.value),
			conditions: conditionWords(point).all,
		};
	});

	return {
		pointIndex: at,
		tabs: computed(() => pointTabs(points.value)),
		answer,
		provenance: computed(() => (result.value ? provenanceRows(result.value) : null)),
		/** What must be known before the figures are believed. */
		reservations: computed(() => reservations(shown.value, request.value, status.value)),
		setPoint: (index: number) => {
			pointIndex.value = Math.max(0, index);
		},
	};
}

function reservations(shown: Shown | null, request: StudyRequest | null, status: RunStatus): readonly string[] {
	if (!shown) return [];
	const { units, partial } = shown.result.provenance;
	const of = `“${shown.scenario.name}”, ${count(shown.units)} drives, seed ${shown.seed}`;
	const isSame = request?.scenario === shown.scenario && request.units === shown.units && request.seed === shown.seed;
	const isGoingOn = status.state === 'running' && isSame;
	const words: string[] = [];
	if (!isSame) words.push(`These are the figures of ${of}, not of the inputs as they are now.`);
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

export type WhichChoiceAnswer = NonNullable<ReturnType<typeof createWhichChoice>['answer']['value']>;
