import type { ChangeWords } from '../../../../shared/words/change.ts';
import type { createWhatChanged } from '../../model/what-changed.ts';
import { ChoiceCells, ChoiceHeads } from '../../parts/choice-cells.tsx';
import { WideTable } from '../../parts/wide-table.tsx';

type Rows = ReturnType<typeof createWhatChanged>['everywhere']['value'];

/** The median drive's change at every operating point, and that of the distance between the choices. */
export function Everywhere({ rows }: { rows: Rows }) {
	if (rows.length === 0) return null;
	return (
		<section class="everywhere">
			<WideTable what="the median drive at every operating point">
				<caption>The median drive at every operating point</caption>
				<thead>
					<tr>
						<th scope="col">Point</th>
						<ChoiceHeads areMarked />
						<th scope="col">half-bus − virtual neutral</th>
					</tr>
				</thead>
				<tbody>
					{rows.map(({ name, choices, gap }) => (
						<tr key={name}>
							<th scope="row">{name}</th>
							<ChoiceCells of={(choice) => <Change words={choices[choice]} />} />
							<td>
								<Change words={gap} />
							</td>
						</tr>
					))}
				</tbody>
			</WideTable>
		</section>
	);
}

function Change({ words }: { words: ChangeWords | null }) {
	if (!words) return <>not in the baseline</>;
	return (
		<>
			{words.before} → {words.after}
			<small>{words.step ? `${words.step}${words.isShown ? '' : ', no change shown'}` : words.interval}</small>
		</>
	);
}
