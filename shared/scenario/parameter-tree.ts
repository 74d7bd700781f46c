import type { NumberRecord, ParameterRecord } from '../parameters/parameter.ts';
import { parameters } from '../parameters/parameters.ts';

/** The parameter records in the nesting of a scenario file: each part of a dotted id is a level. */
export type ParameterTree = ReadonlyMap<string, ParameterTree | ParameterRecord>;

/** What a scenario states in common for all points; `stated` parameters have no common value. */
export const commonTree: ParameterTree = grow(parameters.filter((p) => !(p.kind !== 'choice' && p.stated)));

/** The conditions that an operating point may state, by the last part of their ids: `voltage` for `supply.voltage`. */
export const pointRecords: ReadonlyMap<string, NumberRecord> = new Map(
	parameters
		.filter((p): p is NumberRecord => p.kind !== 'choice' && p.perPoint === true)
		.map((p) => [p.id.slice(p.id.lastIndexOf('.') + 1), p]),
);

function grow(records: readonly ParameterRecord[]): ParameterTree {
	const root = new Map<string, ParameterTree | ParameterRecord>();
	for (const record of records) {
		const names = record.id.split('.');
		const leaf = names.pop() ?? '';
		let branch = root;
		for (const name of names) {
			const next = (branch.get(name) ?? new Map()) as typeof root;
			branch.set(name, next);
			branch = next;
		}
		branch.set(leaf, record);
	}
	return root;
}
