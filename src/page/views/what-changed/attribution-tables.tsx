import { choiceNames } from '../../../../shared/drive/drive.ts';
import { count } from '../../../../shared/words/figures.ts';
import type { AttributedFigure, createWhatChanged } from '../../model/what-changed.ts';
import { ChoiceGroup } from '../../parts/choice-cells.tsx';
import { WideTable } from '../../parts/wide-table.tsx';

type Attributing = ReturnType<typeof createWhatChanged>['attributing']['value'];

/** What each edit had to do with the change of each headline figure. */
export function AttributionTables({ attributing }: { attributing: Attributing }) {
	if (attributing.state === 'none') return attributing.words ? <p class="aside">{attributing.words}</p> : null;
	if (attributing.state === 'waiting') return <p class="aside">Which edit did it: waits for the run to finish.</p>;
	if (attributing.state === 'running') {
		const { done, asked } = attributing;
		return (
			<div class="progress">
				<progress aria-label="Drives simulated to tell the edits apart" max={asked} value={done} />
				<p>
					Telling the edits apart: {count(done)} of {count(asked)} drives
				</p>
			</div>
		);
	}
	const { figures, method, point } = attributing.attribution;
	return (
		<section class="attribution" aria-labelledby="attribution-title">
			<h3 id="attribution-title">Which edit did it, at {point}</h3>
			{figures.map((figure) => (
				<FigureTable key={figure.label} figure={figure} />
			))}
			<p class="aside">{method}</p>
		</section>
	);
}

function FigureTable({ figure: { label, note, choices } }: { figure: AttributedFigure }) {
	const isShared = choices.halfBus.rows.some(({ share }) => share !== null);
	return (
		<WideTable what={`which edit did it: ${label}`}>
			<caption>
				{label}
				<small>{note}</small>
			</caption>
			<thead>
				<tr>
					<th scope="col">Edit</th>
					{isShared && <th scope="col">share</th>}
					<th scope="col">alone</th>
					<th scope="col">last</th>
				</tr>
			</thead>
			{choiceNames.map((choice) => (
				<tbody key={choice}>
					<ChoiceGroup choice={choice} span={isShared ? 4 : 3}>
						, in all {choices[choice].whole}
					</ChoiceGroup>
					{choices[choice].rows.map(({ edit, share, alone, last }) => (
						<tr key={edit}>
							<th scope="row">{edit}</th>
							{isShared && (
								<td class="share">
									{share ? (
										<div>
											{share.words}
											<Bar part={share.bar} choice={choice} />
										</div>
									) : (
										'–'
									)}
								</td>
							)}
							<td>{alone}</td>
							<td>{last}</td>
						</tr>
					))}
				</tbody>
			))}
		</WideTable>
	);
}

/** A share as a bar from the middle: left where it takes away. Beside its figure, and thin under it where there is no room. */
function Bar({ part, choice }: { part: number; choice: string }) {
	const width = Math.abs(part) * 48;
	return (
		<svg class={`share-bar ${choice}`} viewBox="0 0 100 14" preserveAspectRatio="none" aria-hidden="true">
			<path d="M50 0v14" />
			<rect x={part < 0 ? 50 - width : 50} y="3" width={width} height="8" />
		</svg>
	);
}
