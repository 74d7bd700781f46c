import type { GradesModel } from '../../model/grades/grades.ts';
import { Behind } from '../../parts/behind.tsx';
import { ChoiceGroup } from '../../parts/choice-cells.tsx';

/** What of each grade does it: its purchasable values, its tolerance, or both. */
export function EffectsTable({ answer: { choices } }: { answer: NonNullable<GradesModel['answer']['value']> }) {
	const shown = choices.filter(({ rows }) => rows.length > 0);
	const effects = shown[0]?.rows.at(-1)?.effects ?? [];
	return (
		<Behind what="passing share · 1 drive in 20 beyond, effects apart">
			<table>
				<thead>
					<tr>
						<th scope="col">Grade</th>
						{effects.map(({ effect }) => (
							<th key={effect} scope="col">
								{effect}
							</th>
						))}
					</tr>
				</thead>
				{shown.map(({ choice, rows }) => (
					<tbody key={choice}>
						<ChoiceGroup choice={choice} span={effects.length + 1} />
						{rows
							.filter((row) => row.effects.length > 0)
							.map((row) => (
								<tr key={row.name}>
									<th scope="row">{row.name}</th>
									{row.effects.map(({ effect, words }) => (
										<td key={effect}>{words}</td>
									))}
								</tr>
							))}
					</tbody>
				))}
			</table>
		</Behind>
	);
}
