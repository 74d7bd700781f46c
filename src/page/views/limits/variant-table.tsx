import type { ComponentChildren } from 'preact';
import { choiceNames } from '../../../../shared/drive/drive.ts';
import type { VariantCells } from '../../../../shared/variants/variant-cells.ts';
import { Behind } from '../../parts/behind.tsx';
import { ChoiceGroup } from '../../parts/choice-cells.tsx';

interface VariantTableProps {
	/** What it is the table of. */
	readonly what: string;
	/** Over the first column. */
	readonly head: string;
	readonly rows: readonly {
		readonly key: string;
		readonly name: ComponentChildren;
		/** In the order of the choices. */
		readonly choices: readonly VariantCells[];
	}[];
	/** With what was computed to go wrong an hour. */
	readonly isHourly?: boolean;
}

/** The same drives under changed settings, a row each: what passes, how surely, and how far off they are. */
export function VariantTable({ what, head, rows, isHourly = false }: VariantTableProps) {
	return (
		<Behind what={what}>
			<table class="limits-table">
				<thead>
					<tr>
						<th scope="col">{head}</th>
						<th scope="col">pass</th>
						<th scope="col">limits, one-sided</th>
						<th scope="col">verdict</th>
						<th scope="col">median drive</th>
						<th scope="col">1 in 20 beyond</th>
						{isHourly && <th scope="col">wrong an hour, computed</th>}
					</tr>
				</thead>
				{choiceNames.map((choice, place) => (
					<tbody key={choice}>
						<ChoiceGroup choice={choice} span={isHourly ? 7 : 6} />
						{rows.map(({ key, name, choices }) => {
							const cells = choices[place];
							return (
								cells && (
									<tr key={key}>
										<th scope="row">{name}</th>
										<td>{cells.share}</td>
										<td>
											{cells.low} … {cells.high}
										</td>
										<td class={`verdict ${cells.decision}`}>{cells.decision}</td>
										<td>{cells.median}</td>
										<td>{cells.worse}</td>
										{isHourly && <td>{cells.computed}</td>}
									</tr>
								)
							);
						})}
					</tbody>
				))}
			</table>
		</Behind>
	);
}
