// biome-ignore-all lint/a11y/noRedundantRoles: see choice-table.tsx
// biome-ignore-all lint/a11y/useSemanticElements: a group's head is a rowheader, which the rule would have scoped to its row
import type { ComponentChildren } from 'preact';
import { type ChoiceName, choiceNames } from '../../../shared/drive/drive.ts';
import { choiceWords } from '../../../shared/words/names.ts';
import { ChoiceMark } from './choice-mark.tsx';

interface ChoiceHeadsProps {
	/** With the marks that the pictures have. */
	readonly areMarked?: boolean;
	/** Columns that each stands over. */
	readonly span?: number;
}

/** A column's head for each choice. */
export const ChoiceHeads = ({ areMarked = false, span = 1 }: ChoiceHeadsProps) => (
	<>
		{choiceNames.map((choice) => (
			<th key={choice} scope="col" colSpan={span}>
				{areMarked && <ChoiceMark choice={choice} />}
				{choiceWords[choice]}
			</th>
		))}
	</>
);

/** The head of a table that sets the choices side by side, its rows' names to the left. */
export const ChoiceHeadRow = () => (
	<thead>
		<tr>
			<td />
			<ChoiceHeads areMarked />
		</tr>
	</thead>
);

/** A cell for each choice. */
export const ChoiceCells = ({ of }: { readonly of: (choice: ChoiceName) => ComponentChildren }) => (
	<>
		{choiceNames.map((choice) => (
			<td key={choice}>{of(choice)}</td>
		))}
	</>
);

interface ChoiceGroupProps {
	readonly choice: ChoiceName;
	/** Columns of the table. */
	readonly span: number;
	/** What is to be said of it besides its name. */
	readonly children?: ComponentChildren;
}

/** The row over one choice's rows. */
export const ChoiceGroup = ({ choice, span, children }: ChoiceGroupProps) => (
	<tr role="row" class="group">
		<th role="rowheader" colSpan={span} scope="rowgroup">
			<ChoiceMark choice={choice} />
			{choiceWords[choice]}
			{children}
		</th>
	</tr>
);
