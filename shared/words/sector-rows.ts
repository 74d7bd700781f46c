import type { PerChoice } from '../drive/drive.ts';
import type { PointResult } from '../study/result.ts';
import { signedDegrees } from './figures.ts';
import { sectorWords } from './names.ts';

/** Mean error of each of the six sectors in words. */
export function sectorRows({ choices }: Pick<PointResult, 'choices'>) {
	return sectorWords.map(({ phase, rising }, kind) => {
		const words = (means: readonly number[]): string => signedDegrees(means[kind] ?? Number.NaN);
		const figures: PerChoice<string> = {
			halfBus: words(choices.halfBus.sectorMeans),
			virtualNeutral: words(choices.virtualNeutral.sectorMeans),
		};
		return { sector: `${phase}, ${rising ? 'rising' : 'falling'}`, figures };
	});
}
