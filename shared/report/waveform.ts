import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { roundMarks } from '../maths/round-marks.ts';
import { type DriveWindow, readingStride, type SectorEvents } from '../one-drive/drive-window.ts';
import { type Lane, lanesOf, laneY, tickWords } from '../one-drive/lanes.ts';
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
${seen.map((events) => blanking(events, lanes, x))}
${lanes.map((lane) => traces(lane, stretch, `${choice}-${lane.name.replaceAll(' ', '-')}`))}
${seen.map((events) => sectorMarks(events, lanes, x, bottom))}
${readings(window.runs[choice].readings, lanes, x, window, choice)}
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
		html`<path d="M${gutter} ${round(laneY(lane, tick))}h${width}"/><text class="tick" x="${gutter - 5}" y="${round(laneY(lane, tick) + 3.5)}">${tickWords(tick)}</text>`,
)}</g>`;

/** Traces run over columns and their own lane's place: stretched and shifted, and cut to the lane. */
const traces = (lane: Lane & { readonly shift: number }, stretch: number, clip: string): Markup => html`
<clipPath id="${clip}"><rect x="${gutter}" y="${round(lane.top)}" width="${width}" height="${round(lane.height)}"/></clipPath>
<g clip-path="url(#${clip})"><g transform="translate(${gutter} ${round(lane.shift)}) scale(${stretch} 1)">
${lane.paths.map(({ trace, d }) => html`<path class="trace ${trace} ${lane.marks}" d="${d}" vector-effect="non-scaling-stroke"/>`)}
</g></g>`;

/** A place in the picture, at its edge for what lies outside. */
const clamped = (place: number): number => Math.min(gutter + width, Math.max(gutter, place));

/** The ground of a sector's blanking, behind all traces. */
function blanking(
	{ begin, blankedUntil, commutation }: SectorEvents,
	[sense]: readonly Lane[],
	x: (time: number) => number,
): Markup | null {
	const [from, to] = [clamped(x(begin)), clamped(x(Math.min(blankedUntil, commutation)))];
	return sense && to > from
		? html`<rect class="blanking" x="${round(from)}" y="${sense.top}" width="${round(to - from)}" height="${sense.height}"/>`
		: null;
}

/** The true crossing, what was taken for it, and the commutation. */
function sectorMarks(
	{ begin, acceptedAt, reached, commutation, trueCrossing, kind, sector }: SectorEvents,
	[sense]: readonly Lane[],
	x: (time: number) => number,
	bottom: number,
): Markup {
	if (!sense) return html``;
	const [from, to] = [clamped(x(begin)), clamped(x(commutation))];
	const { top, height } = sense;
	const inside = (time: number): boolean => x(time) >= gutter && x(time) <= gutter + width;
	const middle = (from + to) / 2;
	return html`<g class="sector ${kind}">
${inside(commutation) && html`<path class="commutation" d="M${round(x(commutation))} ${top}V${round(bottom)}"/>`}
${inside(trueCrossing) && html`<path class="true-crossing" d="M${round(x(trueCrossing))} ${top}v${height}"/>`}
${!Number.isNaN(reached) && inside(acceptedAt) && html`<path class="accepted" d="M${round(x(acceptedAt))} ${top}v${height}m-3.5 0h7l-3.5 -6z"/>`}
${kind && html`<text class="wrong" x="${round(middle)}" y="${top + 12}">${eventWords[kind].replace(/s$/, '')}</text>`}
${to - from > 24 && html`<text class="number" x="${round(middle)}" y="${round(top + height - 4)}">${sector}</text>`}
</g>`;
}

/** Each reading as the comparator saw it, with the threshold it was held against, and how many of the latest vote for a crossing. */
function readings(
	all: Float64Array,
	lanes: readonly Lane[],
	x: (time: number) => number,
	{ votes: [needed, most] }: Pick<DriveWindow, 'votes'>,
	choice: ChoiceName,
): Markup {
	const [sense, votes] = lanes;
	if (!sense || !votes) return html``;
	const marks: Markup[] = [];
	let compared = '';
	let isBroken = true;
	const within = (value: number): number => Math.min(sense.high, Math.max(sense.low, value));
	for (let at = 0; at < all.length; at += readingStride) {
		const [time, value, threshold, state, count] = all.subarray(at, at + readingStride) as unknown as [
			number,
			number,
			number,
			number,
			number,
		];
		const left = round(x(time));
		const isVote = state === readingStates.crossed || state === readingStates.notCrossed;
		if (isVote) {
			compared += `${isBroken ? 'M' : 'L'}${left} ${round(laneY(sense, within(threshold)))}`;
			marks.push(
				html`<circle class="${state === readingStates.crossed ? 'crossed' : 'not-crossed'}" cx="${left}" cy="${round(laneY(sense, within(value)))}" r="1.8"/>`,
			);
		}
		isBroken = !isVote;
		if (count > 0) {
			marks.push(
				html`<path class="vote" d="M${left} ${round(votes.top + votes.height)}V${round(laneY(votes, count))}"/>`,
			);
		}
	}
	return html`<g class="readings"><path class="needed" d="M${gutter} ${round(laneY(votes, Math.min(needed, most)))}h${width}"/><path class="compared ${choice}" d="${compared}"/>${marks}</g>`;
}

function timeAxis({ from, to }: DriveWindow, x: (time: number) => number, bottom: number): Markup {
	const ticks = roundMarks(1e3 * from, 1e3 * to, 8).map((ms) => Number(ms.toPrecision(9)));
	return html`<g class="time">${ticks.map((ms) => {
		const left = round(x(1e-3 * ms));
		// a text in the middle of its tick must not reach over the picture's edge
		const isNear = left > gutter + width - 20;
		return html`<path d="M${left} ${round(bottom)}v4"/>${!isNear && html`<text x="${left}" y="${round(bottom + 15)}">${ms}</text>`}`;
	})}<text class="unit" x="${gutter + width / 2}" y="${round(bottom + 29)}">ms from the start of the run</text></g>`;
}

const round = (value: number): number => Math.round(10 * value) / 10;
