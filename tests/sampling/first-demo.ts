import type { NumberRecord, Tolerance } from '../../shared/parameters/parameter.ts';
import { parameters } from '../../shared/parameters/parameters.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';

/** A scenario of the records' defaults, two operating points, with some tolerances replaced. */
export function scenarioOfDefaults(tolerances: Readonly<Record<string, Tolerance>> = {}, starts = 4): Scenario {
	const numbers = parameters.filter((record): record is NumberRecord => record.kind !== 'choice');
	const conditions = numbers.filter((record) => record.role === 'condition');
	const point = {
		name: 'rated',
		values: Object.fromEntries(conditions.map((record) => [record.id, record.default as number])),
		ranges: Object.fromEntries(conditions.flatMap((record) => (record.range ? [[record.id, record.range]] : []))),
	};
	return {
		name: 'defaults',
		lesson: 'none',
		values: { ...Object.fromEntries(parameters.map((record) => [record.id, record.default])), 'trial.starts': starts },
		tolerances: {
			...Object.fromEntries(numbers.flatMap((record) => (record.tolerance ? [[record.id, record.tolerance]] : []))),
			...tolerances,
		},
		points: [point, { ...point, name: 'again' }],
		referencePoint: 0,
	};
}
