import type { Unit } from '../parameters/parameter.ts';
import { parameterById } from '../parameters/parameters.ts';
import { unitSpelling } from '../parameters/unit-spelling.ts';
import type { RangeAxis } from '../range/range-result.ts';
import type { VariantChoice, VariantFigures, VariantPoint } from '../variants/variant-figures.ts';
import { computed, perChoice, rate, unitCounts, unitError, verdict, word } from './common-shapes.ts';
import { type Check, count, dictionary, figure, list, number, object, one, orNull, refined } from './shape.ts';

/** Values by parameter id; the parameters are looked up. */
export const byParameter = <T>(check: Check<T>): Check<Readonly<Record<string, T>>> =>
	refined(dictionary(check, 200), (values, path) =>
		Object.keys(values).every((id) => parameterById.has(id)) ? null : path,
	);

export const axis = object<RangeAxis>({
	id: one(...parameterById.keys()),
	name: word,
	unit: one(...(Object.keys(unitSpelling) as Unit[])),
	spacing: one('linear', 'logarithmic'),
	values: list(number, 10_000),
});

const choice = object<VariantChoice>({
	passed: count,
	verdict,
	unitError,
	crossingsPerHour: object({ counted: figure, computed: orNull(figure) }),
	points: list(
		object<VariantPoint>({
			name: word,
			sectors: count,
			meanError: figure,
			unitError,
			counted: rate,
			computed: orNull(computed),
			lost: count,
			torqueNotReached: count,
			runs: count,
		}),
		100,
	),
});

/** Of units under changed settings. */
export const variantChecks: { readonly [Name in keyof VariantFigures]-?: Check<VariantFigures[Name]> } = {
	units: unitCounts,
	choices: perChoice(choice),
};
