import { formatQuantity, formatRelative } from '../../../../shared/parameters/format-quantity.ts';
import type { NumberRecord, ParameterRecord, Unit } from '../../../../shared/parameters/parameter.ts';
import { parseQuantity } from '../../../../shared/parameters/quantity.ts';
import { isObject, type Json, type JsonObject } from '../../../../shared/scenario/read-json.ts';
import { ownScale } from '../../../../shared/scenario/read-spread.ts';
import { type DocumentPath, valueAt, withValueAt } from './document.ts';

/** What the form lets one change of a parameter. */
export type FieldName = 'value' | 'lot' | 'mismatch' | 'distribution' | 'range';

/** The entry of a parameter in a scenario file, whichever of its two forms it is written in. */
export function fieldsOf(entry: Json | undefined): JsonObject {
	if (entry === undefined) return {};
	return isObject(entry) ? entry : { value: entry };
}

/** The document with one field of an entry changed; undefined takes it out, so that its default holds. */
export function withField(
	document: JsonObject,
	path: DocumentPath,
	field: string,
	value: Json | undefined,
): JsonObject {
	const entry = valueAt(document, path);
	if (field === 'value' && !isObject(entry)) return withValueAt(document, path, value);
	return withValueAt(document, path, withMember(fieldsOf(entry), field, value));
}

const withMember = (fields: JsonObject, name: string, value: Json | undefined): JsonObject | undefined => {
	const next = Object.fromEntries(
		Object.entries({ ...fields, [name]: value as Json }).filter(([, member]) => member !== undefined),
	);
	return Object.keys(next).length > 0 ? next : undefined;
};

/** A field as it is shown while nobody types in it: in engineering notation where it can be read, else as written. */
export function fieldText(record: ParameterRecord, field: FieldName, entry: Json | undefined): string {
	const written = fieldsOf(entry)[field] ?? defaultOf(record, field);
	if (written === undefined) return '';
	if (record.kind === 'choice' || field === 'distribution') return String(written);
	if (field === 'value') {
		if (written === record.word) return String(written);
		return quantityText(written, record.unit);
	}
	return spreadText(record, written);
}

/** Whether a field is stated in the scenario, not left to its default. */
export const isStated = (field: FieldName, entry: Json | undefined): boolean => fieldsOf(entry)[field] !== undefined;

function defaultOf(record: ParameterRecord, field: FieldName): Json | undefined {
	if (field === 'value') return record.default;
	if (record.kind === 'choice') return undefined;
	if (field === 'range') return record.range?.halfWidth ?? 0;
	return record.tolerance?.[field];
}

function spreadText(record: NumberRecord, written: Json): string {
	const isRelative = isShare(written) || (isBare(written) && ownScale(record) === 'relative');
	if (!isRelative) return quantityText(written, record.unit);
	const share = parseQuantity(written, '1');
	return 'value' in share ? formatRelative(share.value) : String(written);
}

const isBare = (written: Json): boolean =>
	typeof written === 'number' || (typeof written === 'string' && /^[-+.\deE]+$/.test(written));
const isShare = (written: Json): boolean => typeof written === 'string' && /(%|ppm)\s*$/.test(written);

function quantityText(written: Json, unit: Unit): string {
	if (typeof written !== 'number' && typeof written !== 'string') return JSON.stringify(written);
	const quantity = parseQuantity(written, unit);
	if ('problem' in quantity) return String(written);
	// a share that was written as a percentage is read back as one
	if (unit === '1' && isShare(written)) return formatRelative(quantity.value);
	return formatQuantity(quantity.value, unit);
}
