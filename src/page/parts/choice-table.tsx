// biome-ignore-all lint/a11y/noRedundantRoles: on a narrow page the rows are laid out as blocks, which some browsers take for the end of a table
import '../style/choice-table.css';
import type { ComponentChildren } from 'preact';
import type { ChoiceName } from '../../../shared/drive/drive.ts';
import { ChoiceGroup } from './choice-cells.tsx';

interface ChoiceTableProps {
	/** What the rows are. */
	readonly head: string;
	/** What each further column holds. */
	readonly columns: readonly string[];
	readonly choices: readonly {
		readonly choice: ChoiceName;
		readonly rows: readonly ChoiceTableRow[];
	}[];
}

interface ChoiceTableRow {
	readonly key: string;
	readonly name: ComponentChildren;
	readonly class?: string | undefined;
	/** One a column; words in place of a list stand across all columns. */
	readonly cells: readonly ComponentChildren[] | string;
}

/**
 * Many columns for each choice's rows. Where they have no room beside one
 * another each row becomes a block: its name, and each figure under its column's words.
 */
export function ChoiceTable({ head, columns, choices }: ChoiceTableProps) {
	return (
		<div class="choice-table">
			<table role="table">
				<thead role="rowgroup">
					<tr role="row">
						{[head, ...columns].map((words) => (
							<th key={words} role="columnheader" scope="col">
								{words}
							</th>
						))}
					</tr>
				</thead>
				{choices.map(({ choice, rows }) => (
					<tbody key={choice} role="rowgroup">
						<ChoiceGroup choice={choice} span={columns.length + 1} />
						{rows.map(({ key, name, class: kind, cells }) => (
							<tr key={key} role="row" class={kind}>
								<th role="rowheader" scope="row">
									{name}
								</th>
								{typeof cells === 'string' ? (
									<td role="cell" colSpan={columns.length}>
										{cells}
									</td>
								) : (
									cells.map((cell, i) => (
										<td key={columns[i]} role="cell" data-column={columns[i]}>
											{cell}
										</td>
									))
								)}
							</tr>
						))}
					</tbody>
				))}
			</table>
		</div>
	);
}
