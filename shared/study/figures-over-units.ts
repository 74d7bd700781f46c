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
	const room = cells.map(({ length }) => new Float64Array(length));
	const values = (name: UnitFigureName): readonly [Float64Array, Float64Array] =>
		cells.map((own, choice) => unitFigureValues(study.columns, own, name, room[choice])) as [
			Float64Array,
			Float64Array,
		];
	const figures = unitFigureNames.map((name): [UnitFigureName, FigureOverUnits] => {
		const { signed } = unitFigures[name];
		const pairs = values(name);
		if (signed) for (const own of pairs) for (let i = 0; i < own.length; i += 1) own[i] = Math.abs(own[i] as number);
		const paired = pairedFigures(...pairs, level);
		// worked out again rather than kept twice; the spread puts them in order
		const [halfBus, virtualNeutral] = signed ? values(name) : pairs;
		const spread = {
			halfBus: figureSpread(halfBus, signed, level),
			virtualNeutral: figureSpread(virtualNeutral, signed, level),
		};
		return [name, { spread, paired }];
	});
	return Object.fromEntries(figures) as Record<UnitFigureName, FigureOverUnits>;
}
