import { choiceNames } from '../../../../shared/drive/drive.ts';
import type { ChangeWords } from '../../../../shared/words/change.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import type { createWhatChanged } from '../../model/what-changed.ts';
import { ChoiceMark } from '../../parts/choice-mark.tsx';

type Rows = ReturnType<typeof createWhatChanged>['everywhere']['value'];

/** The median drive's change at every operating point, and that of the distance between the choices. */
export function Everywhere({ rows }: { rows: Rows }) {
	if (rows.length === 0) return null;
	return (
		<section class="everywhere">
			<table>
				<caption>The median drive at every operating point</caption>
				<thead>
					<tr>
						<th scope="col">Point</th>
						{choiceNames.map((choice) => (
							<th key={choice} scope="col">
								<ChoiceMark choice={choice} />
								{choiceWords[choice]}
							</th>
						))}
						<th scope="col">half-bus − virtual neutral</th>
					</tr>
				</thead>
				<tbody>
					{rows.map(({ name, choices, gap }) => (
						<tr key={name}>
							<th scope="row">{name}</th>
							{choiceNames.map((choice) => (
								<Cell key={choice} words={choices[choice]} />
							))}
							<Cell words={gap} />
						</tr>
					))}
				</tbody>
			</table>
		</section>
	);
}

function Cell({ words }: { words: ChangeWords | null }) {
	if (!words) return <td>not in the baseline</td>;
	return (
		<td>
			{words.before} → {words.after}
			<small>{words.step ? `${words.step}${words.isShown ? '' : ', no change shown'}` : words.interval}</small>
		</td>
	);
}
