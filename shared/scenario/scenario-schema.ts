import { formatQuantity, formatRelative } from '../parameters/format-quantity.ts';
import type { NumberRecord, ParameterRecord } from '../parameters/parameter.ts';
import { longestQuantity } from '../parameters/quantity.ts';
import { commonTree, type ParameterTree, pointRecords } from './parameter-tree.ts';
import { unprintable } from './plain-line.ts';
import { limits, spreadNames } from './read-entry.ts';
import { longestLesson, longestName, mostPoints } from './read-scenario.ts';
import { bases, distributions, ownScale, scales } from './read-spread.ts';

type Schema = Readonly<Record<string, unknown>>;

/**
 * The JSON Schema of a scenario file, for editors that complete and check while
 * one types. It walks the same records as `readScenario`, which has the last
 * word: a schema cannot read "4k7" or weigh one parameter against another.
 */
export function scenarioSchema(): Schema {
	return {
		$schema: 'https://json-schema.org/draft/2020-12/schema',
		title: 'Anglespread scenario',
		description:
			'One drive, its tolerances and operating points. Values are SI numbers, or texts with a unit ("22 kΩ", "4k7", "75 µs"); what is absent takes its default.',
		...object({ ...head, ...branch(commonTree), points: points(), referencePoint }, ['name', 'points']),
		$defs: {
			deviation: {
				description: 'Half-width: "1 %", or absolute with its unit; a bare number follows scale.',
				type: ['number', 'string'],
				minimum: 0,
			},
			deviations: {
				description: 'Measured deviations from the nominal value; they replace lot and mismatch.',
				type: 'array',
				items: { type: ['number', 'string'] },
				minItems: 1,
			},
			scale: { description: 'How bare numbers are meant.', enum: scales },
			distribution: { enum: distributions },
			basis: { description: 'Where the tolerance comes from.', enum: bases },
		},
	};
}

const text = (description: string, maxLength: number): Schema => ({
	type: 'string',
	description,
	minLength: 1,
	maxLength,
	pattern: `^[^${unprintable}]*$`,
});

const head: Schema = {
	$schema: { type: 'string' },
	name: text('What the drive is called in results.', longestName),
	invented: { type: 'boolean', description: 'True where drive and figures were made up to teach something.' },
	lesson: text('What is to be learnt from it.', longestLesson),
};

const points = (): Schema => ({
	type: 'array',
	description: 'Operating points that every unit must survive.',
	minItems: 1,
	maxItems: mostPoints,
	items: object(
		{
			name: text('Unique among the points.', longestName),
			...Object.fromEntries([...pointRecords].map(([name, record]) => [name, entry(record)])),
		},
		['name', ...[...pointRecords].filter(([, record]) => record.stated).map(([name]) => name)],
	),
});

const referencePoint = text('Point at which nominal compensation is found; the first unless named.', longestName);

function object(properties: Schema, required: readonly string[] = []): Schema {
	return { type: 'object', properties, additionalProperties: false, ...(required.length > 0 && { required }) };
}

const branch = (tree: ParameterTree): Schema =>
	Object.fromEntries([...tree].map(([name, node]) => [name, 'id' in node ? entry(node) : object(branch(node))]));

/** Definition that describes each name beside `value`. */
const spreadDefinitions: Readonly<Record<string, string>> = {
	lot: 'deviation',
	mismatch: 'deviation',
	range: 'deviation',
	gap: 'deviation',
	measured: 'deviations',
	scale: 'scale',
	distribution: 'distribution',
	basis: 'basis',
};

function entry(record: ParameterRecord): Schema {
	const description = record.kind === 'choice' ? record.sentence : `${record.sentence} ${numbers(record)}`;
	const plain = record.kind === 'choice' ? [{ enum: record.options }] : plainForms(record);
	const spread = spreadNames(record).map((name) => [name, { $ref: `#/$defs/${spreadDefinitions[name]}` }]);
	const full = object({ value: { anyOf: plain }, ...Object.fromEntries(spread) });
	return { description, default: record.default, anyOf: [...plain, full] };
}

function plainForms(record: NumberRecord): readonly Schema[] {
	const { kind, min, max, allowed, unit, default: value } = record;
	const number = allowed ? { enum: allowed } : { type: kind, minimum: min, maximum: max };
	const example = typeof value === 'number' ? formatQuantity(value, unit) : value;
	return [number, { type: 'string', maxLength: longestQuantity, examples: [example] }];
}

/** Range, unit and default spread in words. */
function numbers(record: NumberRecord): string {
	const { tolerance, range, unit } = record;
	const bare = unit === '1' ? '' : ` A bare number is in ${unit}.`;
	const width = (w: number): string => (ownScale(record) === 'relative' ? formatRelative(w) : `${w} ${unit}`);
	const spread = tolerance
		? ` Default lot ${width(tolerance.lot)}, mismatch ${width(tolerance.mismatch)}.`
		: range
			? ` Default range ± ${width(range.halfWidth)}.`
			: '';
	return `Allowed: ${limits(record)}.${bare}${spread}`;
}
