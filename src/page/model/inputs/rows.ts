import type { Distribution, NumberRecord, ParameterRecord } from '../../../../shared/parameters/parameter.ts';
import { parameters } from '../../../../shared/parameters/parameters.ts';
import { pointRecords } from '../../../../shared/scenario/parameter-tree.ts';
import { isObject, type Json, type JsonObject } from '../../../../shared/scenario/read-json.ts';
import { distributions } from '../../../../shared/scenario/read-spread.ts';
import type { Problem } from '../../../../shared/scenario/scenario.ts';
import { keepUnits } from '../../../../shared/words/keep-units.ts';
import { measuredValues } from '../../../../shared/words/measured.ts';
import { type DocumentPath, pathWords, valueAt } from './document.ts';
import { type FieldName, fieldsOf, fieldText, isStated } from './entry.ts';
import { groupTitles, type InputSection, inputSections } from './sections.ts';

/** One field of the form, in words. */
export interface InputField {
	readonly field: FieldName;
	/** `sensing.divider.top mismatch`, unlike any other's. */
	readonly key: string;
	/** For those who hear it: "phase divider, top: mismatch". */
	readonly label: string;
	readonly text: string;
	/** False where the text is the default that holds as nothing is stated. */
	readonly isStated: boolean;
	/** What is wrong with it in words; '' for nothing. */
	readonly problem: string;
	/** Of a choice: what may be chosen. */
	readonly options: readonly string[] | null;
	readonly placeholder: string;
}

/** One parameter, at all points or at one of them. */
export interface InputRow {
	readonly key: string;
	readonly path: DocumentPath;
	readonly record: ParameterRecord;
	readonly fields: readonly InputField[];
	/** How many measured values stand in for the tolerance. */
	readonly measured: number;
	/** What the scenario had before it was changed, in words; null where it is as it was. */
	readonly was: string | null;
	/** Problems of the row that belong to no field. */
	readonly problems: readonly string[];
}

export interface InputGroup {
	readonly title: string;
	readonly rows: readonly InputRow[];
}

export interface InputSectionRows extends Pick<InputSection, 'id' | 'title'> {
	readonly groups: readonly InputGroup[];
	readonly changes: number;
	readonly problems: number;
}

interface Seen {
	readonly document: JsonObject;
	/** As opened. */
	readonly base: JsonObject;
	readonly problems: readonly Problem[];
}

/** The whole form from the document that is edited: a loop over the parameters, and over the points for theirs. */
export function inputRows(seen: Seen): readonly InputSectionRows[] {
	return inputSections.map(({ id, title, groups }) => {
		const made = [
			...groups.map((group) => ({
				title: groupTitles[group],
				rows: parameters
					.filter((record) => record.group === group && !(record.kind !== 'choice' && record.stated))
					.map((record) => row(record, record.id.split('.'), seen)),
			})),
		];
		const all = id === 'operation' ? [...pointGroups(seen), ...made] : made;
		const rows = all.flatMap((group) => group.rows);
		return {
			id,
			title,
			groups: all,
			changes: rows.filter((one) => one.was !== null).length,
			problems: rows.filter((one) => one.problems.length > 0 || one.fields.some(({ problem }) => problem !== ''))
				.length,
		};
	});
}

/** At each point: what it must state, and what it states besides. */
function pointGroups(seen: Seen): InputGroup[] {
	const points = valueAt(seen.document, ['points']);
	if (!Array.isArray(points)) return [];
	return points.map((point: Json, i) => ({
		title: `At ${isObject(point) && typeof point.name === 'string' ? point.name : `point ${i + 1}`}`,
		rows: [...pointRecords]
			.filter(([name, record]) => record.stated || (isObject(point) && point[name] !== undefined))
			.map(([name, record]) => row(record, ['points', i, name], seen)),
	}));
}

/** The columns of the form that a parameter has a field in. */
function fieldNames(record: ParameterRecord): readonly FieldName[] {
	if (record.role === 'part') return ['value', 'lot', 'mismatch', 'distribution'];
	return record.role === 'condition' && record.id !== 'operation.share' ? ['value', 'range'] : ['value'];
}

const fieldWords: Readonly<Record<FieldName, string>> = {
	value: '',
	lot: 'lot tolerance',
	mismatch: 'mismatch tolerance',
	distribution: 'distribution',
	range: 'range',
};

function row(record: ParameterRecord, path: DocumentPath, { document, base, problems }: Seen): InputRow {
	const key = pathWords(path);
	const entry = valueAt(document, path);
	const measured = fieldsOf(entry).measured;
	const where = path[0] === 'points' ? ` at ${pointName(document, path)}` : '';
	const own = problems.filter((problem) => problem.path === key || problem.path.startsWith(`${key}.`));
	const isOf = (field: FieldName, problem: Problem): boolean =>
		problem.path === `${key}.${field}` ||
		(field === 'value' && problem.path === key) ||
		(field === 'distribution' && problem.path === `${key}.gap`);
	const names = fieldNames(record);
	return {
		key,
		path,
		record,
		fields: names.map((field) => ({
			field,
			key: `${key} ${field}`,
			label: `${record.name}${where}${fieldWords[field] && `: ${fieldWords[field]}`}`,
			text: fieldText(record, field, entry),
			isStated: isStated(field, entry),
			problem: own
				.filter((problem) => isOf(field, problem))
				.map(problemWords)
				.join('; '),
			options: optionsOf(record, field, Array.isArray(measured)),
			placeholder: field === 'lot' || field === 'mismatch' || field === 'range' ? '0' : '',
		})),
		measured: Array.isArray(measured) ? measured.length : 0,
		was: changeWords(record, valueAt(base, path), entry),
		problems: own.filter((problem) => !names.some((field) => isOf(field, problem))).map(problemWords),
	};
}

const pointName = (document: JsonObject, path: DocumentPath): string => {
	const name = valueAt(document, ['points', path[1] as number, 'name']);
	return typeof name === 'string' ? name : `point ${Number(path[1]) + 1}`;
};

const problemWords = ({ value, message }: Problem): string =>
	keepUnits(/^\S+ to \S+|\d.* to .*\d/.test(value) ? `${message}; it reaches ${value}` : message);

function optionsOf(record: ParameterRecord, field: FieldName, hasMeasured: boolean): readonly string[] | null {
	if (field === 'value') return record.kind === 'choice' ? record.options : null;
	if (field !== 'distribution') return null;
	const chosen: readonly Distribution[] = distributions.filter((name) => name !== 'measured' || hasMeasured);
	return chosen;
}

/** What an entry said before, in words, where it now says something else; null where both mean the same. */
function changeWords(record: ParameterRecord, before: Json | undefined, after: Json | undefined): string | null {
	const was = entryWords(record, before);
	return was === entryWords(record, after) && sameMeasured(before, after) ? null : was;
}

const sameMeasured = (before: Json | undefined, after: Json | undefined): boolean =>
	JSON.stringify(fieldsOf(before).measured ?? null) === JSON.stringify(fieldsOf(after).measured ?? null);

/** A parameter's entry on one line: "22 kΩ, mismatch 1 %". */
export function entryWords(record: ParameterRecord, entry: Json | undefined): string {
	const text = (field: FieldName): string => fieldText(record, field, entry);
	if (record.kind === 'choice') return text('value');
	const words = [text('value')];
	const measured = fieldsOf(entry).measured;
	if (Array.isArray(measured)) return `${words[0]}, measured, ${measuredValues(measured.length)}`;
	for (const field of fieldNames(record)) {
		if (field === 'value' || field === 'distribution') continue;
		if (!isNothing(text(field))) words.push(`${field === 'range' ? '±' : field} ${text(field)}`);
	}
	if (record.role === 'part' && text('distribution') !== defaultDistribution(record)) words.push(text('distribution'));
	return keepUnits(words.join(', '));
}

const isNothing = (text: string): boolean => /^0(?![.\d])/.test(text);
const defaultDistribution = (record: NumberRecord): string => record.tolerance?.distribution ?? '';
