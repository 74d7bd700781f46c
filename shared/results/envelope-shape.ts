import type { CombinationResult, EnvelopeResult } from '../envelope/envelope-result.ts';
import { perChoice, provenance, sentence, toldRequirement, verdict, word } from './common-shapes.ts';
import { count, flag, list, number, object, one, orNull, refined } from './shape.ts';
import { byParameter, variantChecks } from './variant-shape.ts';

const shape = object<EnvelopeResult>({
	format: one('anglespread-envelope'),
	formatVersion: one(1),
	provenance,
	requirement: toldRequirement,
	unitsPerCombination: count,
	possible: count,
	thinned: orNull(object({ strength: count })),
	combinations: list(
		object<CombinationResult>({
			...variantChecks,
			point: word,
			limits: byParameter(one('low', 'high')),
			conditions: byParameter(number),
			isSearched: flag,
		}),
		10_000,
	),
	worst: perChoice(orNull(count)),
	everywhere: perChoice(object({ passed: count, verdict })),
	sentence,
});

/** What `envelope` finds, field by field; a condition at its limit has a value, and the worst combinations are there. */
export const envelopeShape = refined(shape, ({ combinations, worst }, path) => {
	const haveValues = combinations.every(({ limits, conditions }) =>
		Object.keys(limits).every((id) => Object.hasOwn(conditions, id)),
	);
	if (!haveValues) return `${path}.combinations`;
	return Object.values(worst).every((place) => place === null || place < combinations.length) ? null : `${path}.worst`;
});
