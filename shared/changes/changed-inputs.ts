import type { ConditionRange, ParameterRecord, Tolerance } from '../parameters/parameter.ts';
import { parameters } from '../parameters/parameters.ts';
import { canonicalJson } from '../scenario/canonical-json.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { quantity, relative } from '../words/quantity.ts';
import { isVarying, toleranceWords } from '../words/tolerance.ts';

/** One thing that two scenarios state differently. */
export interface InputChange {
	/** Dotted path, as in a scenario file. */
	readonly path: string;
	readonly name: string;
	/** With all digits; "none" where there is no such thing. */
	readonly before: string;
	readonly after: string;
}

/** A thing that a scenario states: its name, its words, and what must be equal for it to be the same. */
interface Stated {
	readonly name: string;
	readonly words: string;
	readonly value: unknown;
	/** Path of the operating point it is part of. */
	readonly point?: string;
}

/** What differs between two resolved scenarios, in the order of the parameters; common values first, then point by point, by name. */
export function changedInputs(before: Scenario, after: Scenario): readonly InputChange[] {
	const [first, second] = [statedIn(before), statedIn(after)];
	return [...new Set([...first.keys(), ...second.keys()])].flatMap((path): InputChange[] => {
		const [was, is] = [first.get(path), second.get(path)];
		if (was && is && canonicalJson(was.value) === canonicalJson(is.value)) return [];
		// a point that came or went is one change, not one of every condition
		const point = (is ?? was)?.point;
		if (point !== undefined && !(first.has(point) && second.has(point))) return [];
		return [{ path, name: (is ?? was)?.name ?? path, before: was?.words ?? 'none', after: is?.words ?? 'none' }];
	});
}

function statedIn({ name, values, tolerances, points, referencePoint }: Scenario): Map<string, Stated> {
	const known = new Map(parameters.map((record) => [record.id, record]));
	const stated = new Map<string, Stated>([['name', { name: 'name of the scenario', words: name, value: name }]]);
	/** In the order of the records; ids of other versions, which have none here, after them. */
	const inOrder = (ids: Iterable<string>): string[] => {
		const given = new Set(ids);
		return [...[...known.keys()].filter((id) => given.has(id)), ...[...given].filter((id) => !known.has(id))];
	};
	for (const id of inOrder([...Object.keys(values), ...Object.keys(tolerances)])) {
		const record = known.get(id);
		// conditions are stated by the points
		if (record?.role === 'condition') continue;
		const value = values[id];
		const title = record?.name ?? id;
		if (value !== undefined) stated.set(id, { name: title, words: valueWords(record, value), value });
		const tolerance = tolerances[id];
		if (tolerance === undefined) continue;
		const words = spreadWords(record, tolerance);
		stated.set(`${id} (tolerance)`, { name: `tolerance of ${title}`, words, value: tolerance });
	}
	for (const point of points) {
		const at = `points[${JSON.stringify(point.name)}]`;
		stated.set(at, { name: `operating point ${point.name}`, words: 'there', value: true });
		for (const id of inOrder([...Object.keys(point.values), ...Object.keys(point.ranges)])) {
			const record = known.get(id);
			const title = `${record?.name ?? id} at ${point.name}`;
			const value = point.values[id];
			if (value !== undefined)
				stated.set(`${at}.${id}`, { name: title, words: valueWords(record, value), value, point: at });
			const range = point.ranges[id];
			if (range === undefined) continue;
			stated.set(`${at}.${id} (range)`, {
				name: `range of ${title}`,
				words: rangeWords(record, range),
				value: range,
				point: at,
			});
		}
	}
	const reference = points[referencePoint]?.name ?? '';
	stated.set('referencePoint', { name: 'reference point', words: reference, value: reference });
	return stated;
}

function valueWords(record: ParameterRecord | undefined, value: number | string): string {
	if (typeof value === 'string' || record === undefined || record.kind === 'choice') return String(value);
	return quantity(value, record.unit, 12);
}

function spreadWords(record: ParameterRecord | undefined, tolerance: Tolerance): string {
	if (!isVarying(tolerance)) return 'none';
	if (record === undefined || record.kind === 'choice') return canonicalJson(tolerance);
	const { lot, mismatch, spread, basis } = toleranceWords(record, tolerance);
	const parts = [lot === '–' ? '' : `lot ±${lot}`, mismatch === '–' ? '' : `mismatch ±${mismatch}`, spread, basis];
	return parts.filter((part) => part !== '').join(', ');
}

function rangeWords(record: ParameterRecord | undefined, { scale, halfWidth }: ConditionRange): string {
	const isRelative = scale === 'relative' || record === undefined || record.kind === 'choice';
	return `±${isRelative ? relative(halfWidth, 12) : quantity(halfWidth, record.unit, 12)}`;
}
