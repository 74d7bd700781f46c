import { perChoice } from '../../shared/drive/per-choice.ts';
import { drivesNear } from '../../shared/study/drives-near.ts';
import { pointChange } from '../../shared/study/point-change.ts';
import { browserHost } from '../host/browser-host.ts';
import { keptCompensation } from '../host/kept-compensation.ts';
import { createPool } from '../host/pool.ts';
import { type RecordTicket, recordShelf } from '../host/record-shelf.ts';
import { runComparisonInPool } from '../host/run-comparison.ts';
import { runPreviewInPool } from '../host/run-preview.ts';
import { runStudyForUnits } from '../host/run-study.ts';
import type { PlaceOnShelf, Services } from './model/services.ts';

/** Milliseconds a shard takes: short, so that an edit need not wait long for the workers. */
const shardTime = 40;

/**
 * Studies, previews and comparisons, on workers that live as long as the page
 * does. It runs in a thread of its own: merging, figures and digests would hold
 * up typing. Records of units stay here; the page has tickets for them.
 */
export function startEngine() {
	const pool = createPool(browserHost());
	pool.warm();
	const compensationOf = keptCompensation(pool);
	const records = recordShelf();
	const study: Services['study'] = async (request, { onPartial, ...watch }) => {
		const compensation = await compensationOf(request.scenario, watch);
		const { result, record } = await runStudyForUnits(
			{
				...request,
				...watch,
				compensation,
				shardTime,
				onPartial: (result, record) => onPartial(result, records.put(record)),
			},
			pool,
		);
		return { result, record: records.put(record) };
	};
	const preview: Services['preview'] = async (request, { onPartial, ...watch }) => {
		const compensation = await compensationOf(request.scenario, watch);
		const found = await runPreviewInPool(
			{
				...request,
				...watch,
				compensation,
				onPartial: (soFar) => onPartial({ ...soFar, record: records.put(soFar.record) }),
			},
			pool,
		);
		return found && { ...found, record: records.put(found.record) };
	};
	const compare: Services['compare'] = async (request, watch) => {
		const found = await runComparisonInPool({ ...request, ...watch }, pool);
		return found?.map(records.put) ?? null;
	};
	const change = async ([before, after]: readonly [PlaceOnShelf, PlaceOnShelf]) => {
		const [first, second] = [records.at(before.record), records.at(after.record)];
		return first && second
			? pointChange({ record: first, point: before.point }, { record: second, point: after.point })
			: null;
	};
	const near = async ({ place, angle, most }: { place: PlaceOnShelf; angle: number; most: number }) => {
		const study = records.at(place.record)?.study;
		return study ? perChoice((_, choice) => drivesNear(study, { point: place.point, choice, angle, most })) : null;
	};
	const letGo = async (ticket: RecordTicket) => records.letGo(ticket);
	return { study, preview, compare, change, near, letGo };
}
