import { choiceWords } from '../../../../shared/words/names.ts';
import { stretchOf } from '../../model/drives-here.ts';
import type { PageModel } from '../../model/page-model.ts';
import type { WhichChoiceAnswer } from '../../model/which-choice.ts';
import { Behind } from '../../parts/behind.tsx';
import { Chart } from '../../parts/chart.tsx';
import { KeyedSection } from '../../parts/keyed-section.tsx';
import { BinTable } from './bin-table.tsx';
import { DrivesHere } from './drives-here.tsx';

/** Both error distributions overlaid, as counts and cumulative, over one angle axis. */
export function Errors({
	answer: { pictures, bins, worst, hasGhost },
	model,
}: {
	answer: WhichChoiceAnswer;
	model: PageModel;
}) {
	const { pick } = model.drivesHere;
	const onPick = (row: Readonly<Record<string, unknown>>): void => {
		const stretch = stretchOf(row);
		if (stretch) void pick(stretch);
	};
	if (!bins || !pictures.counts || !pictures.cumulative) {
		return (
			<section class="errors">
				<h3>How far off commutations are</h3>
				<p>No commutation was measured at this operating point.</p>
			</section>
		);
	}
	return (
		<KeyedSection class="errors" id="errors-title" title="How far off commutations are" hasGhost={hasGhost}>
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
				<BinTable bins={bins} onPick={(stretch) => void pick(stretch)} />
			</Behind>
		</KeyedSection>
	);
}
