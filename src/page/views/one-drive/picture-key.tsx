import type { JSX } from 'preact';
import type { Lane } from '../../../../shared/one-drive/lanes.ts';
import { type KeyEntry, letterWidth, markWidth, type PlacedEntry, wordsAt } from '../../model/one-drive/picture-key.ts';

/** What the marks in the lanes stand for: part of the picture, so that it is saved with it. */
export const PictureKey = ({ entries }: { entries: readonly PlacedEntry[] }) => (
	<g class="picture-key">
		{entries.map((entry) => (
			<g key={entry.mark ?? entry.words} class={entry.mark === null ? 'closer' : undefined}>
				{entry.mark && <g transform={`translate(${entry.x} ${entry.y - 4})`}>{samples[entry.mark]}</g>}
				<text x={wordsAt(entry)} y={entry.y}>
					{entry.words}
				</text>
			</g>
		))}
	</g>
);

const middle = markWidth / 2;
const crossing = <path class="accepted" d={`M${middle} -7v12m-4 0h8l-4 -7z`} />;
const reading = <circle cx={middle} cy="0" r="3" />;

/** Each mark as the lanes draw it, about the middle of a line of words. */
const samples: Readonly<Record<NonNullable<KeyEntry['mark']>, JSX.Element>> = {
	sector: (
		<text class="number" x={markWidth} y="4" text-anchor="end">
			12
		</text>
	),
	commutation: (
		<g class="marks">
			<path class="commutation" d={`M${middle} -7V6`} />
		</g>
	),
	blanking: (
		<g class="marks">
			<rect class="blanking" x="2" y="-6" width={markWidth - 4} height="12" />
		</g>
	),
	cursor: <path class="cursor" d={`M${middle} -7V6`} />,
	true: (
		<g class="marks">
			<path class="true-crossing" d={`M${middle} -7V6`} />
		</g>
	),
	accepted: <g class="marks">{crossing}</g>,
	wrong: (
		<g class="marks">
			<g class="early">{crossing}</g>
		</g>
	),
	ghostAccepted: <path class="ghost-accepted" d={`M${middle} 6v-13m-4 0h8l-4 7z`} />,
	ghostCommutation: <path class="ghost-commutation" d={`M${middle} -7V6`} />,
	notCrossed: <g class="readings">{reading}</g>,
	crossed: (
		<g class="readings">
			<g class="crossed">{reading}</g>
		</g>
	),
	ignored: (
		<g class="readings">
			<g class="ignored">{reading}</g>
		</g>
	),
	votes: (
		<g class="readings">
			<rect class="vote" x={middle - 4} y="-1" width="3" height="7" />
			<rect class="vote" x={middle + 2} y="-6" width="3" height="12" />
		</g>
	),
	needed: (
		<g class="readings">
			<path class="needed" d={`M0 0H${markWidth}`} />
		</g>
	),
};

/** A trace's sample in a lane's title, and the gaps about its name, px. */
const sampleWidth = 18;
const gap = 5;

/** What a lane shows, and which of its traces is which. @param width from the scale's gutter to the picture's end */
export function LaneTitle({ lane, gutter, width }: { lane: Lane; gutter: number; width: number }) {
	const { top, title, subject, paths } = lane;
	const y = top - 5;
	if (paths.length < 2) {
		return (
			<text class="title" x={gutter} y={y}>
				{title}
			</text>
		);
	}
	const steps = paths.map(({ words }) => sampleWidth + 3 * gap + letterWidth * words.length);
	const first = letterWidth * subject.length + 2 * gap;
	const whole = steps.reduce((sum, step) => sum + step, first) - 2 * gap;
	// over the scale where the picture is too narrow
	const x = Math.max(0, Math.min(gutter, gutter + width - whole));
	return (
		<g class="lane-key">
			<text class="title" x={x} y={y}>
				{subject}
			</text>
			{paths.map(({ trace, words }, i) => {
				const from = x + first + steps.slice(0, i).reduce((sum, step) => sum + step, 0);
				return (
					<g key={trace}>
						<g class="traces">
							<path class={`${trace} ${lane.marks ?? ''}`} d={`M${from} ${y - 4}h${sampleWidth}`} />
						</g>
						<text x={from + sampleWidth + gap} y={y}>
							{words}
						</text>
					</g>
				);
			})}
		</g>
	);
}
