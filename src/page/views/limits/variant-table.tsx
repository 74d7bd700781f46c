import type { ComponentChildren } from 'preact';
import { choiceNames } from '../../../../shared/drive/drive.ts';
import type { VariantCells } from '../../../../shared/variants/variant-cells.ts';
import { Behind } from '../../parts/behind.tsx';
import { ChoiceTable } from '../../parts/choice-table.tsx';

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
			<ChoiceTable
				head={head}
				columns={[
					'pass',
					'limits, one-sided',
					'verdict',
					'median drive',
					'1 in 20 beyond',
					...(isHourly ? ['wrong an hour, computed'] : []),
				]}
				choices={choiceNames.map((choice, place) => ({
					choice,
					rows: rows.flatMap(({ key, name, choices }) => {
						const cells = choices[place];
						return cells ? { key, name, cells: cellsOf(cells, isHourly) } : [];
					}),
				}))}
			/>
		</Behind>
	);
}

const cellsOf = (
	{ share, low, high, decision, median, worse, computed }: VariantCells,
	isHourly: boolean,
): readonly ComponentChildren[] => [
	share,
	`${low} … ${high}`,
	<span class={`verdict ${decision}`}>{decision}</span>,
	median,
	worse,
	...(isHourly ? [computed] : []),
];
