import { choiceNames } from '../../../../shared/drive/drive.ts';
import type { ChangeWords, HeadlineChange } from '../../../../shared/words/change.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { ChoiceMark } from '../../parts/choice-mark.tsx';

/** The headline figures before and after, with the change and its interval. */
export function HeadlineTable({ headlines }: { headlines: readonly HeadlineChange[] }) {
	return (
		<section class="figures headline-changes">
			<table>
				<caption>Before and after</caption>
				<thead>
					<tr>
						<td />
						{choiceNames.map((choice) => (
							<th key={choice} scope="col">
								<ChoiceMark choice={choice} />
								{choiceWords[choice]}
							</th>
						))}
					</tr>
				</thead>
				<tbody>
					{headlines.map(({ label, note, choices }) => (
						<tr key={label}>
							<th scope="row">
								{label}
								<small>{note}</small>
							</th>
							{choiceNames.map((choice) => (
								<Cell key={choice} words={choices[choice]} />
							))}
						</tr>
					))}
				</tbody>
			</table>
		</section>
	);
}

function Cell({ words }: { words: ChangeWords | null }) {
	if (!words) return <td>none seen on one side, or on both</td>;
	return (
		<td>
			{words.before} → {words.after}
			<strong>{words.step || '–'}</strong>
			<small>
				{words.interval}
				{!words.isShown && ', no change shown'}
			</small>
		</td>
	);
}
