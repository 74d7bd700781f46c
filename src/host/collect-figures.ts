import { figuresPerRun } from '../../shared/origins/mean-errors.ts';
import type { FigurePlan } from '../../shared/origins/smooth-figures.ts';
import type { UnitFailure } from '../../shared/study/run-shard.ts';
import { stageEnds } from './early-ends.ts';
import type { Pool } from './pool.ts';

interface Collection {
	readonly pool: Pool;
	readonly plan: FigurePlan;
	readonly drives: number;
	/** Lets it end earlier: after so many drives, rising, if what is done so far is enough. */
	readonly early?: {
		readonly looks: readonly number[];
		readonly isEnough: (soFar: Pick<Collected, 'figures' | 'done'>) => boolean;
	};
	readonly signal: AbortSignal | undefined;
	readonly silenceLimit: number;
	/** Where the nominal drive failed: why. Nothing is run then and every drive counts as failed. */
	readonly failure?: string | undefined;
	readonly shardSize?: number | undefined;
	readonly onProgress?: (finished: number, failed: number) => void;
}

export interface Collected {
	/** [drive][choice][sector kind], degrees, of the drives up to where it ended; NaN where there is none. */
	readonly figures: Float64Array<ArrayBuffer>;
	/** For each drive, 1 where it was finished. */
	readonly done: Uint8Array<ArrayBuffer>;
	/** By drive, none left out. */
	readonly failures: UnitFailure[];
	/** False where `signal` cut it short. */
	readonly isComplete: boolean;
}

/** Smooth figures of all drives of a design, laid out by drive whatever order the workers finished in. */
export async function collectFigures(collection: Collection): Promise<Collected> {
	const { pool, plan, drives, early, signal, silenceLimit, failure, shardSize, onProgress = () => {} } = collection;
	const figures = new Float64Array(drives * figuresPerRun).fill(Number.NaN);
	const done = new Uint8Array(drives);
	const failures: UnitFailure[] = [];
	const fail = (from: number, to: number, message: string): void => {
		for (let unit = from; unit < to; unit += 1) failures.push({ unit, message });
	};
	let isComplete = true;
	let ended = 0;
	const soFar = () => ({ figures: figures.slice(0, ended * figuresPerRun), done: done.slice(0, ended) });
	if (failure !== undefined) fail(0, drives, failure);
	for (const to of failure === undefined ? stageEnds(drives, early?.looks) : []) {
		isComplete = await pool.run({
			name: 'smoothFigures',
			input: plan,
			from: ended,
			to,
			signal,
			silenceLimit,
			shardSize,
			onShard(shard, from, to) {
				figures.set(shard.figures, from * figuresPerRun);
				done.fill(1, from, to);
				for (const one of shard.failures) done[one.unit] = 0;
				failures.push(...shard.failures);
			},
			onFailure: fail,
			onProgress: (count) => onProgress(Math.max(0, ended + count - failures.length), failures.length),
		});
		if (!isComplete) break;
		ended = to;
		if (early?.isEnough(soFar())) break;
	}
	failures.sort((one, other) => one.unit - other.unit);
	return { ...(isComplete && failure === undefined ? soFar() : { figures, done }), failures, isComplete };
}
