import type { RangeResult, RangeValue, SlowestOfChoice, SlowestSpeed } from '../range/range-result.ts';
import { loadLines } from '../range/setting.ts';
import { decision, perChoice, provenance, sentence, toldRequirement, word } from './common-shapes.ts';
import { count, figure, flag, list, number, object, one, orNull, refined } from './shape.ts';
import { axis, byParameter, variantChecks } from './variant-shape.ts';

const slowest = object<SlowestSpeed>({
	at: byParameter(number),
	resolution: figure,
	choices: perChoice(
		object<SlowestOfChoice>({
			fastest: orNull(figure),
			holds: orNull(figure),
			fails: orNull(figure),
			decision: orNull(decision),
			turnedRound: count,
		}),
	),
});

const shape = object<RangeResult>({
	format: one('anglespread-range'),
	formatVersion: one(1),
	provenance,
	requirement: toldRequirement,
	unitsPerValue: count,
	axes: list(axis, 2),
	point: orNull(word),
	load: orNull(one(...loadLines)),
	values: list(
		object<RangeValue>({
			...variantChecks,
			at: byParameter(number),
			isSearched: flag,
			compensation: perChoice(number),
		}),
		10_000,
	),
	slowest: orNull(list(slowest, 10_000)),
	sentence,
});

/** What `range` finds, field by field; every value lies on every axis. */
export const rangeShape = refined(shape, ({ axes, values }, path) =>
	axes.length > 0 && values.every(({ at }) => axes.every(({ id }) => Object.hasOwn(at, id))) ? null : `${path}.values`,
);
