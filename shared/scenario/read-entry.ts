import { formatQuantity, formatRelative } from '../parameters/format-quantity.ts';
import type { ConditionRange, NumberRecord, ParameterRecord, Tolerance } from '../parameters/parameter.ts';
import { parseQuantity } from '../parameters/quantity.ts';
import { unknownName } from './nearest-name.ts';
import { isObject, type Json, type JsonObject, memberPath } from './read-json.ts';
import { readRange, readTolerance } from './read-spread.ts';
import type { Report } from './scenario.ts';

/** What a scenario says of one parameter, defaults filled in. */
export interface Entry {
	readonly value: number | string;
	/** Of a part. */
	readonly tolerance?: Tolerance;
	/** Of a condition that is not exact. */
	readonly range?: ConditionRange;
}

/** What holds where a scenario says nothing. */
export function defaultEntry(record: ParameterRecord): Entry {
	if (record.kind === 'choice') return { value: record.default };
	return { value: record.default, tolerance: record.tolerance, range: record.range };
}

/** The names that may stand beside `value`. */
export function spreadNames(record: ParameterRecord): readonly string[] {
	if (record.role === 'part') return ['lot', 'mismatch', 'scale', 'distribution', 'gap', 'measured', 'basis'];
	// A share is a weight: it has no range.
	return record.role === 'condition' && record.id !== 'operation.share' ? ['range', 'scale'] : [];
}

/**
 * One parameter as written in a scenario file: a plain value, or an object with
 * value and spread. What is not stated, or is wrong and reported, is taken from `base`.
 */
export function readEntry(record: ParameterRecord, written: Json, path: string, base: Entry, report: Report): Entry {
	const fields: JsonObject = isObject(written) ? written : { value: written };
	const known = ['value', ...spreadNames(record)];
	for (const name of Object.keys(fields)) {
		if (!known.includes(name)) report(memberPath(path, name), fields[name], unknownName(name, known));
	}
	const at = isObject(written) && 'value' in written ? `${path}.value` : path;
	const stated = 'value' in fields ? readValue(record, fields.value, at, report) : base.value;
	const value = stated ?? base.value;
	if (record.kind === 'choice' || typeof value !== 'number') return { ...base, value };

	const spread = { record, value, sound: stated !== undefined, fields, path, report };
	const { tolerance, range } = base;
	return {
		value,
		...(tolerance && { tolerance: readTolerance(spread, tolerance) }),
		...(record.role === 'condition' && { range: readRange(spread, range) }),
	};
}

/** A value within its record's limits; undefined where a problem was reported. */
export function readValue(
	record: ParameterRecord,
	written: Json | undefined,
	path: string,
	report: Report,
): number | string | undefined {
	if (record.kind === 'choice') {
		if (typeof written === 'string' && record.options.includes(written)) return written;
		report(path, written, `${record.name} must be ${oneOf(record.options)}`);
		return undefined;
	}
	if (record.word !== undefined && written === record.word) return written;
	const quantity = parseQuantity(written, record.unit);
	if ('problem' in quantity) {
		const word = record.word === undefined ? '' : `, or ${record.word}`;
		// shares and per cent, which a text for a number without a unit may be, are no whole numbers
		const words =
			record.kind === 'integer' && typeof written === 'string'
				? `must be ${limits(record)}`
				: `${quantity.problem}${word}`;
		report(path, written, `${record.name} ${words}`);
		return undefined;
	}
	if (isWithin(record, quantity.value)) return quantity.value;
	report(path, written, `${record.name} must be ${limits(record)}${percentHint(record, quantity.value)}`);
	return undefined;
}

/** For a share that was given as a number of per cent. */
function percentHint(record: NumberRecord, value: number): string {
	const isMeant = record.unit === '1' && record.max <= 1 && isWithin(record, value / 100);
	return isMeant ? `; did you mean ${formatRelative(value / 100)}?` : '';
}

const isWithin = ({ kind, allowed, min, max }: NumberRecord, value: number): boolean =>
	allowed ? allowed.includes(value) : value >= min && value <= max && (kind !== 'integer' || Number.isInteger(value));

/** "from 1 mΩ to 1 kΩ", "1, 2, 3 or 6", "a whole number from 4 to 16, or none". */
export function limits({ kind, unit, min, max, allowed, word }: NumberRecord): string {
	const range = `from ${formatQuantity(min, unit)} to ${formatQuantity(max, unit)}`;
	const numbers = allowed ? oneOf(allowed.map(String)) : kind === 'integer' ? `a whole number ${range}` : range;
	return word === undefined ? numbers : `${numbers}, or ${word}`;
}

export const oneOf = (words: readonly string[]): string =>
	words.length < 2 ? words.join() : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
