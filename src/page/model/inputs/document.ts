import { isObject, type Json, type JsonObject } from '../../../../shared/scenario/read-json.ts';

/** Names and indices from the top of a scenario file down. */
export type DocumentPath = readonly (string | number)[];

/** What stands at a path of a scenario file; undefined where nothing does. */
export function valueAt(document: Json | undefined, path: DocumentPath): Json | undefined {
	let found = document;
	for (const step of path) {
		if (typeof step === 'number') found = Array.isArray(found) ? (found[step] as Json | undefined) : undefined;
		else found = isObject(found) && Object.hasOwn(found, step) ? found[step] : undefined;
	}
	return found;
}

/**
 * The document with another value at a path, everything else shared with the
 * old one. Objects on the way are made where there are none; `undefined` takes
 * the member out, and objects that it leaves empty with it.
 */
export function withValueAt(document: JsonObject, path: DocumentPath, value: Json | undefined): JsonObject {
	return (replaced(document, path, value) ?? {}) as JsonObject;
}

function replaced(from: Json | undefined, [step, ...rest]: DocumentPath, value: Json | undefined): Json | undefined {
	if (step === undefined) return value;
	if (typeof step === 'number') {
		if (!Array.isArray(from) || !(step in from)) throw new RangeError(`no item ${step} to be replaced`);
		return from.map((item: Json, i) => (i === step ? (replaced(item, rest, value) ?? {}) : item));
	}
	const members = isObject(from) ? from : {};
	const inner = replaced(Object.hasOwn(members, step) ? members[step] : undefined, rest, value);
	const kept = Object.entries(members).filter(([name]) => name !== step);
	if (inner === undefined) return kept.length === 0 ? undefined : Object.fromEntries(kept);
	// an edited member keeps its place, a new one comes last
	return Object.hasOwn(members, step)
		? Object.fromEntries(Object.entries(members).map(([name, old]) => [name, name === step ? inner : old]))
		: Object.fromEntries([...kept, [step, inner]]);
}

/** As the scenario reader writes it in its problems: `points[1].speed`. */
export function pathWords(path: DocumentPath): string {
	return path.reduce<string>(
		(words, step) => (typeof step === 'number' ? `${words}[${step}]` : words === '' ? step : `${words}.${step}`),
		'',
	);
}
