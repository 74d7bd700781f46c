import type { StudyPlan } from '../../shared/study/plan.ts';
import { exposeInBrowser } from '../../workers/browser-expose.ts';
import { shardApi } from '../../workers/shard-api.ts';

exposeInBrowser({
	...shardApi,
	units(plan: StudyPlan, from: number, to: number, report: (done: number) => void) {
		const output = shardApi.units(plan, from, to, report);
		// an error outside any call, as running out of memory would be: the answer never comes
		if (from === 0) {
			setTimeout(() => {
				throw new Error('out of everything');
			});
			return new Promise<object>(() => {});
		}
		return output;
	},
});
