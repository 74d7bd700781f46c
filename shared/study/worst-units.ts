import { cellOf } from './columns.ts';
import type { StudyColumns } from './merge.ts';
import type { WorstUnit } from './result.ts';
import type { UnitJudge } from './unit-passes.ts';

/** The finished units with the largest `unitError` at a point, the worst first; equal ones by their index. */
export function worstUnits(
	{ columns, points }: StudyColumns,
	finished: ArrayLike<number>,
	{ judge, point, choice, most }: { judge: UnitJudge; point: number; choice: number; most: number },
): readonly WorstUnit[] {
	const errorOf = (unit: number): number => columns.unitError[cellOf(points, unit, point, choice)] as number;
	const worst: number[] = [];
	for (let i = 0; i < finished.length; i += 1) {
		const unit = finished[i] as number;
		const error = errorOf(unit);
		if (worst.length === most && error <= errorOf(worst[most - 1] as number)) continue;
		const place = worst.findIndex((other) => errorOf(other) < error);
		worst.splice(place < 0 ? worst.length : place, 0, unit);
		if (worst.length > most) worst.pop();
	}
	return worst.map((unit) => ({
		unit,
		error: errorOf(unit),
		shortcoming: judge.shortcoming(columns, unit, point, choice),
	}));
}
