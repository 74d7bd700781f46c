import type { TopLevelSpec } from 'vega-lite';
import type { Table } from '../../../shared/words/csv.ts';

/** The figures that a chart draws, as they stand in its specification: a row for each of them, whichever layer draws it. */
export function specTable(spec: TopLevelSpec): Table {
	const datasets = Object.entries((spec.datasets ?? {}) as Record<string, readonly Record<string, unknown>[]>);
	const fields = [...new Set(datasets.flatMap(([, rows]) => rows.flatMap((row) => Object.keys(row))))];
	return {
		header: ['layer', ...fields],
		rows: datasets.flatMap(([name, rows]) =>
			rows.map((row) => [
				name,
				...fields.map((field) => {
					const value = row[field];
					return typeof value === 'number' || typeof value === 'string'
						? value
						: value === undefined || value === null
							? ''
							: String(value);
				}),
			]),
		),
	};
}
