import { type ChoiceName, choiceNames } from '../../../shared/drive/drive.ts';
import type { PointResult } from '../../../shared/study/result.ts';
import { count, degrees } from '../../../shared/words/figures.ts';
import { routeLink } from './route.ts';

export interface WorstLink {
	readonly choice: ChoiceName;
	/** "drive 366 (6.30°)" */
	readonly words: string;
	readonly link: string;
}

/** The worst drive of each choice at a point, with the way to look into it. */
export function worstLinks({ choices }: PointResult, pointIndex: number): readonly WorstLink[] {
	return choiceNames.flatMap((choice): WorstLink[] => {
		const [worst] = choices[choice].worst;
		if (!worst) return [];
		const error = Number.isFinite(worst.error) ? degrees(worst.error) : 'lock lost';
		return [
			{
				choice,
				words: `drive ${count(worst.unit)} (${error})`,
				link: routeLink('one-drive', { unit: String(worst.unit), point: String(pointIndex) }),
			},
		];
	});
}
