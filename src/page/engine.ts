import { pointChange } from '../../shared/study/point-change.ts';
import { browserHost } from '../host/browser-host.ts';
import { keptCompensation } from '../host/kept-compensation.ts';
import { createPool } from '../host/pool.ts';
import { runComparisonInPool } from '../host/run-comparison.ts';
import { runPreviewInPool } from '../host/run-preview.ts';
import { runStudyForUnits } from '../host/run-study.ts';
import type { Services } from './model/services.ts';

/** Milliseconds a shard takes: short, so that an edit need not wait long for the workers. */
const shardTime = 40;

/** Studies, previews and comparisons on the page's own workers, which live as long as it does. */
export function startEngine(): Pick<Services, 'study' | 'preview' | 'compare' | 'pointChange'> {
	const pool = createPool(browserHost());
	pool.warm();
	const compensationOf = keptCompensation(pool);
	return {
		async study(request, { onUnits, ...watch }) {
			const compensation = await compensationOf(request.scenario, watch);
			const { result, record } = await runStudyForUnits({ ...request, ...watch, compensation, shardTime }, pool);
			onUnits(record);
			return result;
		},
		async preview(request, watch) {
			const compensation = await compensationOf(request.scenario, watch);
			return runPreviewInPool({ ...request, ...watch, compensation }, pool);
		},
		compare: (request, watch) => runComparisonInPool({ ...request, ...watch }, pool),
		pointChange,
	};
}
