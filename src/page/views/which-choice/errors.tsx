import { choiceNames } from '../../../../shared/drive/drive.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { stretchOf } from '../../model/drives-here.ts';
import type { PageModel } from '../../model/page-model.ts';
import type { WhichChoiceAnswer } from '../../model/which-choice.ts';
import { Behind } from '../../parts/behind.tsx';
import { Chart } from '../../parts/chart.tsx';
import { ChoiceHeads } from '../../parts/choice-cells.tsx';
import { KeyedSection } from '../../parts/keyed-section.tsx';
import { DrivesHere } from './drives-here.tsx';

/** Both error distributions overlaid, as counts and cumulative, over one angle axis. */
export function Errors({ answer: { pictures, bins, worst }, model }: { answer: WhichChoiceAnswer; model: PageModel }) {
	const { pick } = model.drivesHere;
	const onPick = (row: Readonly<Record<string, unknown>>): void => {
		const stretch = stretchOf(row);
		if (stretch) void pick(stretch);
	};
	if (!pictures.counts || !pictures.cumulative) {
		return (
			<section class="errors">
				<h3>How far off commutations are</h3>
				<p>No commutation was measured at this operating point.</p>
			</section>
		);
	}
	return (
		<KeyedSection class="errors" id="errors-title" title="How far off commutations are">
			<Chart caption="Counted" saveAs="errors-counted" picture={pictures.counts} onPick={onPick} />
			<Chart caption="Cumulative" saveAs="errors-cumulative" picture={pictures.cumulative} onPick={onPick} />
			<DrivesHere model={model} />
			{pictures.outside && <p class="aside">{pictures.outside}</p>}
			{worst.length > 0 && (
				<p class="aside worst-links">
					The worst here:{' '}
					{worst.map(({ choice, words, link }, i) => (
						<span key={choice}>
							{i > 0 && ', '}
							{choiceWords[choice]} <a href={link}>{words}</a>
						</span>
					))}
				</p>
			)}
			<Behind what="errors by bin">
				<table>
					<thead>
						<tr>
							<td />
							<ChoiceHeads span={2} />
						</tr>
						<tr>
							<th scope="col">Error</th>
							{choiceNames.map((choice) => [
								<th key={choice} scope="col">
									count
								</th>,
								<th key={`${choice} cumulative`} scope="col">
									up to here
								</th>,
							])}
						</tr>
					</thead>
					<tbody>
						{bins.map(({ range, from, to, cells }) => (
							<tr key={range}>
								<th scope="row">
									<button
										type="button"
										class="bin"
										aria-label={`Drives with errors of ${range}`}
										onClick={() => void pick({ from, to })}
									>
										{range}
									</button>
								</th>
								{cells.map(({ choice, counted, cumulative }) => [
									<td key={choice}>{counted}</td>,
									<td key={`${choice} cumulative`}>{cumulative}</td>,
								])}
							</tr>
						))}
					</tbody>
				</table>
			</Behind>
		</KeyedSection>
	);
}
