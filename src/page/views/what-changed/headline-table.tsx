import type { ChangeWords, HeadlineChange } from '../../../../shared/words/change.ts';
import { ChoiceCells, ChoiceHeads } from '../../parts/choice-cells.tsx';
import { Scroll } from '../../parts/scroll.tsx';

/** The headline figures before and after, with the change and its interval. */
export function HeadlineTable({ headlines }: { headlines: readonly HeadlineChange[] }) {
	return (
		<section class="figures headline-changes">
			<Scroll what="headline figures before and after">
				<table>
					<caption>Before and after</caption>
					<thead>
						<tr>
							<td />
							<ChoiceHeads areMarked />
						</tr>
					</thead>
					<tbody>
						{headlines.map(({ label, note, choices }) => (
							<tr key={label}>
								<th scope="row">
									{label}
									<small>{note}</small>
								</th>
								<ChoiceCells of={(choice) => <Change words={choices[choice]} />} />
							</tr>
						))}
					</tbody>
				</table>
			</Scroll>
		</section>
	);
}

function Change({ words }: { words: ChangeWords | null }) {
	if (!words) return <>none seen on one side, or on both</>;
	return (
		<>
			{words.before} → {words.after}
			<strong>{words.step || '–'}</strong>
			<small>
				{words.interval}
				{!words.isShown && ', no change shown'}
			</small>
		</>
	);
}
