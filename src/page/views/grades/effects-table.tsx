import type { GradesModel } from '../../model/grades/grades.ts';
import { Behind } from '../../parts/behind.tsx';
import { ChoiceTable } from '../../parts/choice-table.tsx';

/** What of each grade does it: its purchasable values, its tolerance, or both. */
export function EffectsTable({ answer: { choices, apart } }: { answer: NonNullable<GradesModel['answer']['value']> }) {
	const shown = choices.filter(({ rows }) => rows.length > 0);
	const effects = shown[0]?.rows.at(-1)?.effects ?? [];
	return (
		<Behind what="passing share · 1 drive in 20 beyond, effects apart">
			<ChoiceTable
				head="Grade"
				columns={effects.map(({ effect }) => effect)}
				choices={shown.map(({ choice, rows }) => ({
					choice,
					rows: rows
						.filter((row) => row.effects.length > 0)
						.map((row) => ({ key: row.name, name: row.name, cells: row.effects.map(({ words }) => words) })),
				}))}
			/>
			{apart && <p class="aside">{apart}</p>}
		</Behind>
	);
}
