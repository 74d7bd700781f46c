import { pointChange } from '../../shared/study/point-change.ts';
import { browserHost } from '../host/browser-host.ts';
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
	return {
		async study(request, { onUnits, ...watch }) {
			const { result, record } = await runStudyForUnits({ ...request, ...watch, shardTime }, pool);
			onUnits(record);
			return result;
		},
		preview: (request, watch) => runPreviewInPool({ ...request, ...watch }, pool),
		compare: (request, watch) => runComparisonInPool({ ...request, ...watch }, pool),
		pointChange,
	};
}
