import type { Edits } from '../../../shared/attribution/shapley.ts';
import { isObject, type JsonObject } from '../../../shared/scenario/read-json.ts';
import { type DocumentPath, valueAt, withValueAt } from './inputs/document.ts';
import { entryWords, inputRows } from './inputs/rows.ts';

/** A parameter that differs from the baseline's, at all points or at one. */
export interface Edit {
	readonly key: string;
	readonly path: DocumentPath;
	readonly name: string;
	readonly before: string;
	readonly after: string;
}

/** The parameters that two scenario files state differently, in the order of the form. */
export function editsBetween(before: JsonObject, after: JsonObject): readonly Edit[] {
	return inputRows({ document: after, base: before, problems: [] }).flatMap(({ groups }) =>
		groups.flatMap(({ title, rows }) =>
			rows.flatMap(({ key, path, record, was }): Edit[] =>
				was === null
					? []
					: [
							{
								key,
								path,
								name: path[0] === 'points' ? `${record.name}, ${title.replace(/^At/, 'at')}` : record.name,
								before: was,
								after: entryWords(record, valueAt(after, path)),
							},
						],
			),
		),
	);
}

/** The earlier document with a set of the edits made. */
export function withEdits(before: JsonObject, after: JsonObject, edits: readonly Edit[], set: Edits): JsonObject {
	return edits.reduce(
		(document, { path }, i) => ((set >> i) & 1 ? withValueAt(document, path, valueAt(after, path)) : document),
		before,
	);
}

/** True where documents differ in more than parameters: other points cannot be told apart edit by edit. */
export function samePoints(before: JsonObject, after: JsonObject): boolean {
	const names = ({ points }: JsonObject): string =>
		JSON.stringify(Array.isArray(points) ? points.map((point) => (isObject(point) ? point.name : null)) : null);
	return names(before) === names(after) && before.referencePoint === after.referencePoint;
}
