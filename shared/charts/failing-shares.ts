import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { verdict } from '../statistics/verdict.ts';
import type { StudyResult } from '../study/result.ts';
import { levelWords } from '../words/level.ts';
import { failingIntervals, failingRow } from './failing-intervals.ts';
import type { Picture } from './pictures.ts';
import type { ChartTheme } from './theme.ts';

const overall = 'all points';

/**
 * Drives that fail, over all operating points and at each, against what may fail:
 * the points that decide stand out.
 *
 * @param ghost the baseline's shares, drawn as grey ticks
 */
export function failingShares(result: StudyResult, theme: ChartTheme, ghost: StudyResult | null = null): Picture {
	return failingIntervals(
		{
			name: 'failing',
			where: 'the requirement',
			rows: rowsOf(result),
			ghost: ghost && rowsOf(ghost),
			limit: 1 - result.requirement.share,
			rowHeight: 36,
		},
		theme,
	);
}

function rowsOf({ verdict: verdicts, requirement, points, provenance }: StudyResult) {
	if (provenance.units.finished === 0) return [];
	const { share, confidence } = requirement;
	const limits = `, each limit with ${levelWords(confidence)} confidence`;
	const atPoint = ({ choices }: StudyResult['points'][number], choice: ChoiceName) => {
		const { passing, units } = choices[choice];
		const counts = { passed: passing.passed, failed: units - passing.passed, notSimulated: provenance.units.failed };
		return verdict(counts, share, confidence);
	};
	return [
		...choiceNames.map((choice) => failingRow(overall, choice, verdicts[choice], limits)),
		...points.flatMap((point) =>
			choiceNames.map((choice) => failingRow(point.name, choice, atPoint(point, choice), limits)),
		),
	];
}
