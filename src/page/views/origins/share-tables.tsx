import { choiceWords } from '../../../../shared/words/names.ts';
import type { OriginsModel } from '../../model/origins/origins.ts';
import { Behind } from '../../parts/behind.tsx';
import { ChoiceMark } from '../../parts/choice-mark.tsx';
import { FigureWords } from '../../parts/figure-words.tsx';

type Choices = NonNullable<OriginsModel['answer']['value']>['choices'];

/** The shares of either choice side by side, and the six sectors behind them. */
export function ShareTables({ choices }: { choices: Choices }) {
	return (
		<section class="shares" aria-labelledby="shares-title">
			<h3 id="shares-title">The shares in figures</h3>
			<div class="beside">
				{choices.map(({ choice, shares, notes, sectors, offTheSix }) => (
					<div key={choice}>
						<table>
							<caption>
								<ChoiceMark choice={choice} />
								{choiceWords[choice]}
							</caption>
							<thead>
								<tr>
									<th scope="col">Of the variance</th>
									<th scope="col">alone</th>
									<th scope="col">with interactions</th>
								</tr>
							</thead>
							<tbody>
								{shares.map(({ name, alone, together }) => (
									<tr key={name}>
										<th scope="row">{name}</th>
										<td>
											<FigureWords figure={alone} />
										</td>
										<td>
											<FigureWords figure={together} />
										</td>
									</tr>
								))}
							</tbody>
						</table>
						{notes.map((note) => (
							<p key={note} class="aside">
								{note}
							</p>
						))}
						{sectors.length > 0 && (
							<Behind what={`the six sectors with ${choiceWords[choice]}`}>
								<table>
									<thead>
										<tr>
											<th scope="col">Open phase</th>
											<th scope="col">off the six</th>
											<th scope="col">deviation</th>
											<th scope="col">most of it from</th>
										</tr>
									</thead>
									<tbody>
										{sectors.map(({ sector, off, sd, most }) => (
											<tr key={sector}>
												<th scope="row">{sector}</th>
												<td>{off}</td>
												<td>{sd}</td>
												<td>{most}</td>
											</tr>
										))}
									</tbody>
								</table>
								<p class="aside">{offTheSix}</p>
							</Behind>
						)}
					</div>
				))}
			</div>
		</section>
	);
}
