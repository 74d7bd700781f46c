import type { ChangeWords, HeadlineChange } from '../../../../shared/words/change.ts';
import { ChoiceCells, ChoiceHeadRow } from '../../parts/choice-cells.tsx';
import { WideTable } from '../../parts/wide-table.tsx';

/** The headline figures before and after, with the change and its interval. */
export function HeadlineTable({ headlines }: { headlines: readonly HeadlineChange[] }) {
	return (
		<section class="figures headline-changes">
			<WideTable what="headline figures before and after">
				<caption>
					Before and after
					<small>under each change its 95&nbsp;% interval</small>
				</caption>
				<ChoiceHeadRow />
				<tbody>
					{headlines.map(({ label, note, choices, missing }) => (
						<tr key={label}>
							<th scope="row">
								{label}
								<small>{note}</small>
							</th>
							<ChoiceCells of={(choice) => <Change words={choices[choice]} missing={missing[choice]} />} />
						</tr>
					))}
				</tbody>
			</WideTable>
		</section>
	);
}

function Change({ words, missing }: { words: ChangeWords | null; missing: string }) {
	if (!words) return <>{missing}</>;
	return (
		<>
			{words.before} → {words.after}
			<strong>{words.change || '–'}</strong>
			<small>
				{words.interval}
				{!words.isShown && ', no change shown'}
			</small>
		</>
	);
}
