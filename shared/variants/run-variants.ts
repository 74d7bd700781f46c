import { runShard, type ShardResult } from '../study/run-shard.ts';
import { simulateTrimmed } from './simulate-trimmed.ts';
import { type VariantList, variantPlan } from './variant.ts';

/** What a range of indices did, variant by variant; the shards' histograms are left empty. */
export interface VariantShards {
	readonly parts: readonly { readonly variant: number; readonly shard: ShardResult }[];
}

/**
 * Every variant of every unit as one row of work, unit after unit: index =
 * unit · variants + place of the variant. So a pool shares all variants out at
 * once, and where the work is cut short all of them have about the same units.
 */
export function runVariants(
	list: VariantList,
	from: number,
	to: number,
	onProgress: (done: number) => void = () => {},
): VariantShards {
	let before = 0;
	const parts = variantStretches(list.variants.length, from, to).map(({ variant, first, end }) => {
		const already = before;
		before += end - first;
		const trim = list.variants[variant]?.advanceTrim;
		const shard = runShard(variantPlan(list, variant), first, end, {
			onProgress: (done) => onProgress(already + done),
			...(trim && { simulate: simulateTrimmed(trim) }),
		});
		return { variant, shard: { ...shard, histograms: new Uint32Array(0) } };
	});
	return { parts };
}

/** Units `first` up to `end` of each variant that indices `from` up to `to` hold; variants without any are left out. */
export function variantStretches(
	variants: number,
	from: number,
	to: number,
): readonly { readonly variant: number; readonly first: number; readonly end: number }[] {
	const found = [];
	for (let variant = 0; variant < variants; variant += 1) {
		const first = Math.max(0, Math.ceil((from - variant) / variants));
		const end = Math.max(0, Math.ceil((to - variant) / variants));
		if (end > first) found.push({ variant, first, end });
	}
	return found;
}
