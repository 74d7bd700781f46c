import { choiceNames } from '../../../../shared/drive/drive.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import type { HeadlineChange } from '../../model/change-words.ts';
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
							<th key={choice} scope="col" colSpan={2}>
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
							{choiceNames.map((choice) => {
								const words = choices[choice];
								return words
									? [
											<td key={choice}>
												{words.before} → {words.after}
											</td>,
											<td key={`${choice} change`}>
												{words.step || '–'}
												<small>{words.isShown ? words.interval : `${words.interval}, no change shown`}</small>
											</td>,
										]
									: [
											<td key={choice} colSpan={2}>
												none seen on one side
											</td>,
										];
							})}
						</tr>
					))}
				</tbody>
			</table>
		</section>
	);
}
