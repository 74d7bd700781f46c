import type { ShardResult } from '../../shared/study/run-shard.ts';

/** Where a study keeps what it has done, so that another one of the same drives need not do it again. */
export interface StudyJournal {
	/** Shards kept that lie within units `from` up to `to`, by rising index, none over another. */
	shards(from: number, to: number): Iterable<ShardResult>;
	/** Keeps a finished shard. Never throws: a study does not end because it cannot be kept. */
	keep(shard: ShardResult): void;
}
