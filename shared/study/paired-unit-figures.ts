import { cellsOf } from './choice-figures.ts';
import { pairedFigures } from './paired-figures.ts';
import type { PointPlace } from './point-place.ts';
import type { PairedFigures } from './result.ts';
import { unitFigureNames, unitFigures, unitFigureValues } from './unit-figures.ts';

/** Every unit-level figure in pairs of the same units; of signed figures, the sizes. */
export function pairedUnitFigures({
	study,
	finished,
	point,
	level,
}: Pick<PointPlace, 'study' | 'finished' | 'point' | 'level'>): PairedFigures['figures'] {
	const figures = unitFigureNames.map((name) => {
		const [first, second] = [0, 1].map((choice) => {
			const values = unitFigureValues(study.columns, cellsOf({ study, finished, point, choice }), name);
			return unitFigures[name].signed ? values.map(Math.abs) : values;
		}) as [Float64Array, Float64Array];
		const { medianDifference, interval, p, better } = pairedFigures(first, second, level);
		return [name, { medianDifference, interval, p, better }] as const;
	});
	return Object.fromEntries(figures) as unknown as PairedFigures['figures'];
}
