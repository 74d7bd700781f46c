import { perChoice } from '../drive/per-choice.ts';
import type { ChoiceFigures, FigureSpread, PointResult, StudyResult } from '../study/result.ts';
import { type UnitFigureName, unitFigureNames, unitFigures } from '../study/unit-figures.ts';

/**
 * Version 1 wrote null both for infinite figures and for those that do not
 * exist. Of a choice that lost drives, a missing figure of a unit is taken for
 * infinite, as it ranked when it was made: at the upper end, of a signed figure
 * also at the lower.
 */
export function restoreInfinities(result: StudyResult): StudyResult {
	return { ...result, points: result.points.map(pointOf) };
}

const pointOf = (point: PointResult): PointResult => ({
	...point,
	choices: perChoice((choice) => figuresOf(point.choices[choice])),
});

function figuresOf(figures: ChoiceFigures): ChoiceFigures {
	if (figures.lost === 0) return figures;
	const { unitError } = figures;
	return {
		...figures,
		unitError: {
			median: orInfinite(unitError.median),
			q95: orInfinite(unitError.q95),
			medianInterval: limits(unitError.medianInterval, false),
			q95Interval: limits(unitError.q95Interval, false),
		},
		unitFigures: Object.fromEntries(
			unitFigureNames.map((name) => [name, spreadOf(figures.unitFigures[name], unitFigures[name].signed)]),
		) as Record<UnitFigureName, FigureSpread>,
		worst: figures.worst.map((one) => ({ ...one, error: orInfinite(one.error) })),
	};
}

const spreadOf = (spread: FigureSpread, signed: boolean): FigureSpread => ({
	...spread,
	quantiles: spread.quantiles.map(({ share, value, interval }) => ({
		share,
		value: orInfinite(value, signed && share < 0.5 ? -Infinity : Infinity),
		interval: limits(interval, signed),
	})),
	symmetric: limits(spread.symmetric, signed),
	shortest: limits(spread.shortest, false),
});

const orInfinite = (value: number, end = Infinity): number => (Number.isNaN(value) ? end : value);

const limits = (interval: readonly [number, number] | null, signed: boolean): readonly [number, number] | null =>
	interval && [orInfinite(interval[0], signed ? -Infinity : Infinity), orInfinite(interval[1])];
