import { choiceNames, type PerChoice } from '../drive/drive.ts';
import { cellsOf } from './choice-figures.ts';
import { figureSpread } from './figure-spread.ts';
import { pairedFigures } from './paired-figures.ts';
import type { PointPlace } from './point-place.ts';
import type { FigureSpread } from './result.ts';
import { type UnitFigureName, unitFigureNames, unitFigures, unitFigureValues } from './unit-figures.ts';

/** One unit-level figure: how it spreads over units with each choice, and how the two differ on the same units. */
interface FigureOverUnits {
	readonly spread: PerChoice<FigureSpread>;
	/** Of signed figures, of the sizes. */
	readonly paired: ReturnType<typeof pairedFigures>;
}

/** Every unit-level figure at a point, one after another, so that of a million units no more than one figure's values are held. */
export function figuresOverUnits({
	study,
	finished,
	point,
	level,
}: Pick<PointPlace, 'study' | 'finished' | 'point' | 'level'>): Readonly<Record<UnitFigureName, FigureOverUnits>> {
	const cells = choiceNames.map((_, choice) => cellsOf({ study, finished, point, choice }));
	const figures = unitFigureNames.map((name): [UnitFigureName, FigureOverUnits] => {
		const { signed } = unitFigures[name];
		const [halfBus, virtualNeutral] = cells.map((own) => unitFigureValues(study.columns, own, name)) as [
			Float64Array,
			Float64Array,
		];
		const spread = {
			halfBus: figureSpread(halfBus, signed, level),
			virtualNeutral: figureSpread(virtualNeutral, signed, level),
		};
		const sizes = (values: Float64Array): Float64Array => (signed ? values.map(Math.abs) : values);
		return [name, { spread, paired: pairedFigures(sizes(halfBus), sizes(virtualNeutral), level) }];
	});
	return Object.fromEntries(figures) as Record<UnitFigureName, FigureOverUnits>;
}
