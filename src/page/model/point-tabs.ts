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

export function pointTabs(points: readonly PointResult[]): readonly PointTab[] {
	return points.map((point) => {
		const better = point.paired.better === 'not shown' ? null : point.paired.better;
		return {
			name: point.name,
			conditions: conditionWords(point).brief,
			better,
			verdict: better ? `${choiceWords[better]} better` : 'no difference shown',
		};
	});
}
