import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { JsonObject } from '../../../shared/scenario/read-json.ts';
import type { PointChange } from '../../../shared/study/point-change.ts';
import type { PointResult } from '../../../shared/study/result.ts';
import type { RecordTicket } from '../../host/record-shelf.ts';
import { followed } from './followed.ts';
import type { PointOnShow } from './on-show.ts';
import type { RunStatus } from './run-status.ts';
import { type Background, previewUnits } from './runs.ts';
import type { PlaceOnShelf, Preview, Services, Shown, StudyRequest } from './services.ts';

/** A result that later ones are held against, with the inputs that gave it. */
export interface Baseline {
	readonly shown: Shown;
	readonly document: JsonObject;
}

interface Seen {
	readonly services: Pick<Services, 'preview' | 'pointChange'>;
	readonly runs: {
		readonly shown: ReadonlySignal<Shown | null>;
		readonly state: ReadonlySignal<RunStatus['state']>;
		readonly background: Background;
		readonly recordFor: (of: Shown) => Promise<RecordTicket | null>;
	};
	readonly request: ReadonlySignal<StudyRequest | null>;
	readonly document: ReadonlySignal<JsonObject | null>;
	readonly onShow: ReadonlySignal<PointOnShow | null>;
	readonly points: ReadonlySignal<readonly PointResult[]>;
	readonly at: ReadonlySignal<number>;
}

/**
 * The pinned result and what changed since. A preview is held against a preview
 * of the baseline, made in a quiet moment, so that like is compared with like.
 */
export function createBaseline({ services, runs, request, document, onShow, points, at }: Seen) {
	const baseline = signal<Baseline | null>(null);
	/** Of the baseline, by point. */
	const previews = signal<ReadonlyMap<number, Preview>>(new Map());

	const canPin = computed(() => {
		const present = runs.shown.value;
		return (
			present !== null &&
			!present.result.provenance.partial &&
			present.scenario === request.value?.scenario &&
			present !== baseline.value?.shown
		);
	});
	const placeOf = (name: string) => {
		const pinned = baseline.value?.shown;
		const point = pinned?.result.points.findIndex((one) => one.name === name) ?? -1;
		return pinned?.record && point >= 0 ? { record: pinned.record, point } : null;
	};
	/** The baseline's figures where present ones are on show. */
	const ghost = computed<PointResult | null>(() => {
		const present = onShow.value;
		const pinned = baseline.value?.shown;
		if (!pinned || !present || isBaseline.value) return null;
		if (present.preview) return previews.value.get(at.value)?.point ?? null;
		return pinned.result.points.find((one) => one.name === present.point.name) ?? null;
	});
	/** True where the baseline itself is on show. */
	const isBaseline = computed(() => {
		const pinned = baseline.value?.shown;
		const present = runs.shown.value;
		if (!pinned || !present || onShow.value?.preview) return false;
		return isSameScenario(pinned, present) && pinned.seed === present.seed && pinned.units === present.units;
	});
	/** The baseline's units and those on show; null where there is nothing to compare. */
	const places = computed<readonly [PlaceOnShelf, PlaceOnShelf] | null>(() => {
		const present = onShow.value;
		if (!present?.place || !baseline.value || isBaseline.value) return null;
		if (!present.preview) {
			const before = placeOf(present.point.name);
			return before && [before, present.place];
		}
		const before = previews.value.get(at.value);
		return before ? [{ record: before.record, point: 0 }, present.place] : null;
	});
	/** What changed at the point on show; null where there is nothing to hold it against. */
	const change = followed(() => {
		const pair = places.value;
		return pair && { of: `${onShow.value?.point.name}`, answer: services.pointChange(...pair) };
	});
	/** What changed at every point, from finished studies. */
	const changes = async (): Promise<readonly { readonly name: string; readonly change: PointChange | null }[]> => {
		const record = runs.shown.value?.record;
		if (!record || !baseline.value || isBaseline.value) return [];
		return Promise.all(
			points.value.map(async ({ name }, point) => {
				const before = placeOf(name);
				return { name, change: before && (await services.pointChange(before, { record, point })) };
			}),
		);
	};

	/** Figures whose units are asked for; what gave way to a run is asked for again after it. */
	const asked = new WeakSet<Shown>();
	const askFor = (of: Shown, take: (record: RecordTicket) => void): void => {
		if (of.record || asked.has(of)) return;
		asked.add(of);
		runs
			.recordFor(of)
			.then((record) => (record ? take(record) : asked.delete(of)))
			// without them there are no changes to be told; the figures stand all the same
			.catch(() => {});
	};
	effect(() => {
		const pinned = baseline.value;
		const present = runs.shown.value;
		const state = runs.state.value;
		if (!pinned || (state !== 'done' && state !== 'idle')) return;
		askFor(pinned.shown, (record) => {
			if (baseline.value === pinned) baseline.value = { ...pinned, shown: { ...pinned.shown, record } };
		});
		if (present && !isBaseline.value && !present.result.provenance.partial) askFor(present, () => {});
	});

	effect(() => {
		const pinned = baseline.value;
		const point = at.value;
		const state = runs.state.value;
		if (!pinned || (state !== 'done' && state !== 'idle') || previews.value.has(point)) return;
		if (point >= pinned.shown.scenario.points.length) return;
		const units = Math.min(previewUnits, pinned.shown.units);
		const made = runs.background(async ({ end, stop }) => {
			const preview = await services.preview(
				{ ...pinned.shown, units, point },
				{ signal: end, stop, onPartial: () => {} },
			);
			if (preview?.isComplete && baseline.value?.document === pinned.document) {
				previews.value = new Map([...previews.value, [point, preview]]);
			}
		});
		// without it, changes wait for the full number
		made.catch(() => {});
	});

	return {
		baseline,
		canPin,
		ghost,
		isBaseline,
		change,
		changes,
		pin(): void {
			const present = runs.shown.value;
			if (!canPin.value || !present || !document.value) return;
			previews.value = new Map();
			baseline.value = { shown: present, document: document.value };
		},
		/** Takes up a baseline that was pinned before the page was left. */
		adopt(earlier: Baseline): void {
			previews.value = new Map();
			baseline.value = earlier;
		},
		unpin(): void {
			baseline.value = null;
			previews.value = new Map();
		},
	};
}

/** A scenario read again, as after a reload, is another object of the same digest. */
export function isSameScenario(one: Shown, other: Shown): boolean {
	const { scenarioDigest } = one.result.provenance;
	return (
		one.scenario === other.scenario ||
		(scenarioDigest !== '' && scenarioDigest === other.result.provenance.scenarioDigest)
	);
}
