import { existsSync, writeFileSync } from 'node:fs';
import type { StudyPlan } from '../../shared/study/plan.ts';
import { exposeInNode } from '../../workers/node-expose.ts';
import { shardApi } from '../../workers/shard-api.ts';

/** What goes wrong, written into the seed so that it reaches the worker and changes no unit. */
export interface Fault {
	readonly kind: 'throws' | 'dies' | 'hangs';
	/** The shard that holds this unit is struck, once half of it is done. */
	readonly unit: number;
	/** A file that remembers that the fault has happened: then it happens once only. */
	readonly marker?: string;
}

exposeInNode({
	...shardApi,
	units(plan: StudyPlan, from: number, to: number, report: (done: number) => void) {
		const fault = JSON.parse(plan.seed) as Fault;
		const isStruck = from <= fault.unit && fault.unit < to && !(fault.marker && existsSync(fault.marker));
		if (!isStruck) return shardApi.units(plan, from, to, report);
		shardApi.units(plan, from, from + Math.ceil((to - from) / 2), report);
		if (fault.marker) writeFileSync(fault.marker, '');
		if (fault.kind === 'throws') throw new Error('the kernel broke down');
		if (fault.kind === 'dies') process.exit(3);
		for (;;); // never answers
	},
});
