import type { CellChoice, CellFigures, ContestCell, ContestResult } from '../contest/contest-result.ts';
import { decision, perChoice, provenance, sentence, toldRequirement, word } from './common-shapes.ts';
import { count, figure, list, number, object, one, orNull } from './shape.ts';
import { axis } from './variant-shape.ts';

const figures = object<CellFigures>({
	units: object({ finished: count, failed: count }),
	smaller: perChoice(count),
	ties: count,
	share: object({ low: figure, high: figure }),
	better: one('halfBus', 'virtualNeutral', 'not shown'),
	medianDifference: figure,
	choices: perChoice(object<CellChoice>({ medianError: figure, passed: count, decision })),
});

/** The map of which choice is better, field by field. */
export const contestShape = object<ContestResult>({
	format: one('anglespread-contest'),
	formatVersion: one(1),
	provenance,
	requirement: toldRequirement,
	point: word,
	speed: axis,
	torque: axis,
	unitsAtMost: count,
	cells: list(
		object<ContestCell>({
			at: object({ 'operation.speed': number, 'operation.torque': number }),
			leftOut: orNull(sentence),
			figures: orNull(figures),
		}),
		10_000,
	),
	sentence,
});
