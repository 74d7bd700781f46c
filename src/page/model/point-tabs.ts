import type { ChoiceName } from '../../../shared/drive/drive.ts';
import type { PointResult } from '../../../shared/study/result.ts';
import { conditionWords } from '../../../shared/words/conditions.ts';
import { choiceWords } from '../../../shared/words/names.ts';

/** What an operating point's tab says: its name, its conditions, and which choice is better there. */
export interface PointTab {
	readonly name: string;
	readonly conditions: readonly string[];
	readonly better: ChoiceName | null;
	readonly verdict: string;
}

/** A place among the operating points; `better` is null where there are no figures of it. */
export type PointPlace = Pick<PointResult, 'name' | 'conditions'> & {
	readonly better: PointResult['paired']['better'] | null;
};

export function pointTabs(places: readonly PointPlace[]): readonly PointTab[] {
	return places.map(({ name, conditions, better: shown }) => {
		const better = shown === 'not shown' ? null : shown;
		const none = shown === null ? 'not yet worked out' : 'no difference shown';
		const verdict = better ? `${choiceWords[better]} better` : none;
		return { name, conditions: conditionWords({ conditions }).brief, better, verdict };
	});
}
