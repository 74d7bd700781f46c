import { choiceNames } from '../drive/drive.ts';
import { type DriveWindow, readingStride, type SectorEvents } from '../one-drive/drive-window.ts';
import { type Lane, lanesOf, laneY } from '../one-drive/lanes.ts';
import { readingStates } from '../one-drive/replay-detection.ts';
import { eventWords } from '../words/names.ts';
import { html, type Markup } from './html.ts';
import type { WorstDrive } from './report.ts';

const gutter = 44;
const width = 640;
const right = 6;
const axisHeight = 34;

/** A few sectors of a drive as a drawing of its own: what the choice's comparator saw, its votes, terminals, currents and torque. */
export function waveform({ window, choice }: Pick<WorstDrive, 'window' | 'choice'>): Markup {
	const others = choiceNames.filter((one) => one !== choice);
	const all = lanesOf(window, choice, 0).filter(({ marks }) => !others.some((other) => other === marks));
	const lanes = stacked(all);
	const bottom = Math.max(...lanes.map(({ top, height }) => top + height));
	const x = (time: number): number => gutter + ((time - window.from) / (window.to - window.from)) * width;
	const stretch = width / window.columns;
	const seen = window.runs[choice].sectors.filter(
		({ begin, commutation }) => commutation >= window.from && begin <= window.to,
	);
	return html`<svg class="waveform" viewBox="0 0 ${gutter + width + right} ${bottom + axisHeight}" role="img" aria-label="Waveforms of the drive, described in the text above">
${lanes.map((lane) => frame(lane))}
${seen.map((events) => sectorMarks(events, lanes, x, bottom))}
${lanes.map((lane) => traces(lane, stretch, `${choice}-${lane.name.replaceAll(' ', '-')}`))}
${readings(window.runs[choice].readings, lanes, x, window)}
${timeAxis(window, x, bottom)}
</svg>`;
}

/** The lanes that are left, moved up to where others were. */
function stacked(lanes: readonly Lane[]): readonly (Lane & { readonly shift: number })[] {
	let top = 0;
	return lanes.map((lane) => {
		const at = top + 17;
		top = at + lane.height;
		return { ...lane, top: at, shift: at - lane.top };
	});
}

const frame = (lane: Lane): Markup => html`<g class="frame">
<rect x="${gutter}" y="${round(lane.top)}" width="${width}" height="${round(lane.height)}"/>
<text x="${gutter}" y="${round(lane.top - 4)}">${lane.title}</text>
${lane.ticks.map(
	(tick) =>
		html`<path d="M${gutter} ${round(laneY(lane, tick))}h${width}"/><text class="tick" x="${gutter - 5}" y="${round(laneY(lane, tick) + 3.5)}">${Number(tick.toPrecision(6)).toString().replace('-', '−')}</text>`,
)}</g>`;

/** Traces run over columns and their own lane's place: stretched and shifted, and cut to the lane. */
const traces = (lane: Lane & { readonly shift: number }, stretch: number, clip: string): Markup => html`
<clipPath id="${clip}"><rect x="${gutter}" y="${round(lane.top)}" width="${width}" height="${round(lane.height)}"/></clipPath>
<g clip-path="url(#${clip})"><g transform="translate(${gutter} ${round(lane.shift)}) scale(${stretch} 1)">
${lane.paths.map(({ trace, d }) => html`<path class="trace ${trace} ${lane.marks}" d="${d}" vector-effect="non-scaling-stroke"/>`)}
</g></g>`;

/** Blanking, the true crossing, what was taken for it, and the commutation. */
function sectorMarks(
	{ begin, blankedUntil, acceptedAt, reached, commutation, trueCrossing, kind, sector }: SectorEvents,
	lanes: readonly Lane[],
	x: (time: number) => number,
	bottom: number,
): Markup {
	const [sense] = lanes;
	if (!sense) return html``;
	const clamp = (time: number): number => Math.min(gutter + width, Math.max(gutter, x(time)));
	const { top, height } = sense;
	const blank = Math.min(blankedUntil, commutation);
	const inside = (time: number): boolean => x(time) >= gutter && x(time) <= gutter + width;
	const middle = (clamp(begin) + clamp(commutation)) / 2;
	return html`<g class="sector ${kind}">
${clamp(blank) > clamp(begin) && html`<rect class="blanking" x="${round(clamp(begin))}" y="${top}" width="${round(clamp(blank) - clamp(begin))}" height="${height}"/>`}
${inside(commutation) && html`<path class="commutation" d="M${round(x(commutation))} ${top}V${round(bottom)}"/>`}
${inside(trueCrossing) && html`<path class="true-crossing" d="M${round(x(trueCrossing))} ${top}v${height}"/>`}
${!Number.isNaN(reached) && inside(acceptedAt) && html`<path class="accepted" d="M${round(x(acceptedAt))} ${top}v${height}m-3.5 0h7l-3.5 -6z"/>`}
${kind && html`<text class="wrong" x="${round(middle)}" y="${top + 12}">${eventWords[kind].replace(/s$/, '')}</text>`}
${clamp(commutation) - clamp(begin) > 24 && html`<text class="number" x="${round(middle)}" y="${round(top + height - 4)}">${sector}</text>`}
</g>`;
}

/** Each reading as the comparator saw it, and how many of the latest vote for a crossing. */
function readings(
	all: Float64Array,
	lanes: readonly Lane[],
	x: (time: number) => number,
	{ votes: [needed, most] }: Pick<DriveWindow, 'votes'>,
): Markup {
	const [sense, votes] = lanes;
	if (!sense || !votes) return html``;
	const marks: Markup[] = [];
	const within = (value: number): number => Math.min(sense.high, Math.max(sense.low, value));
	for (let at = 0; at < all.length; at += readingStride) {
		const [time, value, , state, count] = all.subarray(at, at + readingStride) as unknown as [
			number,
			number,
			number,
			number,
			number,
		];
		const left = round(x(time));
		const isVote = state === readingStates.crossed || state === readingStates.notCrossed;
		if (isVote) {
			marks.push(
				html`<circle class="${state === readingStates.crossed ? 'crossed' : 'not-crossed'}" cx="${left}" cy="${round(laneY(sense, within(value)))}" r="1.8"/>`,
			);
		}
		if (count > 0) {
			marks.push(
				html`<path class="vote" d="M${left} ${round(votes.top + votes.height)}V${round(laneY(votes, count))}"/>`,
			);
		}
	}
	return html`<g class="readings"><path class="needed" d="M${gutter} ${round(laneY(votes, Math.min(needed, most)))}h${width}"/>${marks}</g>`;
}

function timeAxis({ from, to }: DriveWindow, x: (time: number) => number, bottom: number): Markup {
	const step = (to - from) / 6;
	const times = Array.from({ length: 7 }, (_, i) => from + i * step);
	return html`<g class="time">${times.map(
		(time) =>
			html`<path d="M${round(x(time))} ${round(bottom)}v4"/><text x="${round(x(time))}" y="${round(bottom + 15)}">${(1e3 * time).toFixed(2)}</text>`,
	)}<text class="unit" x="${gutter + width / 2}" y="${round(bottom + 29)}">ms from the start of the run</text></g>`;
}

const round = (value: number): number => Math.round(10 * value) / 10;
