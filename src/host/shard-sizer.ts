/** Milliseconds a shard should take: long against a call's own cost (under 1 ms), short against patience. */
const usualTime = 100;
/** At the end shards get smaller, so that all workers finish together, but not below this share of it. */
const leastShare = 0.2;

/** Chooses how many indices the next shard gets, from how long the earlier ones took. */
export class ShardSizer {
	private readonly workers: number;
	private readonly fixed: number | undefined;
	/** Milliseconds an index, from the latest shard; unknown at first. */
	private cost = Number.NaN;
	private readonly aim: number;

	/**
	 * @param fixed indices a shard, if they are not to be chosen
	 * @param aim milliseconds a shard should take
	 */
	constructor(workers: number, fixed?: number, aim = usualTime) {
		this.workers = workers;
		this.aim = aim;
		this.fixed = fixed === undefined ? undefined : Math.max(1, Math.floor(fixed));
	}

	took(indices: number, milliseconds: number): void {
		this.cost = Math.max(milliseconds / indices, 1e-3);
	}

	next(remaining: number): number {
		if (this.fixed !== undefined) return this.fixed;
		// a first look that is quick for any scenario
		if (Number.isNaN(this.cost)) return 1;
		const fair = Math.ceil(remaining / (2 * this.workers));
		return Math.max(
			1,
			Math.round((leastShare * this.aim) / this.cost),
			Math.min(Math.round(this.aim / this.cost), fair),
		);
	}
}
