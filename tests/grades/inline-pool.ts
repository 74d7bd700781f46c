import type { Pool } from '../../src/host/pool.ts';
import { shardApi, type TaskName } from '../../workers/shard-api.ts';

interface Faults {
	/** Called before each shard; what it throws fails the shard. */
	readonly before?: (name: TaskName, from: number, to: number) => void;
	/** Of jobs that choose none. */
	readonly shards?: number;
}

/** A pool that does every task here and now, shard by shard: what a test needs that is not about threads. */
export function inlinePool({ before = () => {}, shards = 64 }: Faults = {}): Pool {
	return {
		workers: 1,
		takeLosses: () => [],
		async run(job) {
			const { name, input, to: end, signal, shardSize = shards } = job;
			const task = shardApi[name] as unknown as (
				given: typeof input,
				from: number,
				to: number,
				report: () => void,
			) => Parameters<typeof job.onShard>[0];
			for (let from = job.from ?? 0; from < end; from += shardSize) {
				if (signal?.aborted) return false;
				const to = Math.min(end, from + shardSize);
				try {
					before(name, from, to);
					job.onShard(
						task(input, from, to, () => {}),
						from,
						to,
					);
				} catch (error) {
					job.onFailure(from, to, error instanceof Error ? error.message : String(error));
				}
				job.onProgress?.(to - (job.from ?? 0));
			}
			return true;
		},
		warm() {},
		rest() {},
		close() {},
	};
}
