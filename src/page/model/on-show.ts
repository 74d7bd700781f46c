import { computed, type ReadonlySignal } from '@preact/signals';
import type { PointResult } from '../../../shared/study/result.ts';
import type { PlaceOnShelf, Previewed, Shown, StudyRequest } from './services.ts';

interface Seen {
	readonly runs: {
		readonly shown: ReadonlySignal<Shown | null>;
		readonly preview: ReadonlySignal<Previewed | null>;
	};
	readonly request: ReadonlySignal<StudyRequest | null>;
	readonly pointIndex: ReadonlySignal<number>;
}

/** One operating point's figures as they stand, from a study or, just after an edit, from a preview. */
export interface PointOnShow {
	readonly point: PointResult;
	/** The units behind it. */
	readonly place: PlaceOnShelf | null;
	/** The preview that the figures are from; null where they are the study's. */
	readonly preview: Previewed['preview'] | null;
}

/** Which figures are on show at the chosen operating point: a preview of the inputs as they are comes before a study of what they were. */
export function createOnShow({ runs: { shown, preview }, request, pointIndex }: Seen) {
	const points = computed(() => shown.value?.result.points ?? []);
	/** Names and conditions of all points, also before there are figures of each. */
	const places = computed(
		() =>
			shown.value?.result.points ??
			request.value?.scenario.points.map(({ name, values }) => ({ name, conditions: values })) ??
			[],
	);
	const at = computed(() => Math.min(pointIndex.value, Math.max(0, places.value.length - 1)));
	/** The preview where it tells more than the study's figures. */
	const quick = computed(() => {
		const one = preview.value;
		if (!one || one.scenario !== request.value?.scenario || one.seed !== request.value.seed) return null;
		if (one.pointIndex !== at.value) return null;
		const study = shown.value;
		if (study?.scenario !== one.scenario || study.seed !== one.seed) return one.preview;
		const { partial, units } = study.result.provenance;
		return partial && units.finished < one.preview.units.finished ? one.preview : null;
	});
	const onShow = computed<PointOnShow | null>(() => {
		if (quick.value) {
			return { point: quick.value.point, place: { record: quick.value.record, point: 0 }, preview: quick.value };
		}
		const point = points.value[at.value];
		const record = shown.value?.record;
		return point ? { point, place: record ? { record, point: at.value } : null, preview: null } : null;
	});
	return { points, places, at, onShow };
}
