import type { ChoiceName } from '../../../../shared/drive/drive.ts';
import { roundStep } from '../../../../shared/maths/round-step.ts';
import { type DriveWindow, readingStride, type SectorEvents } from '../../../../shared/one-drive/drive-window.ts';
import { type Lane, laneY } from '../../../../shared/one-drive/lanes.ts';
import { readingStates } from '../../../../shared/one-drive/replay-detection.ts';
import { eventWords } from '../../../../shared/words/names.ts';

interface MarksProps {
	readonly choice: ChoiceName;
	readonly lanes: readonly Lane[];
	readonly data: DriveWindow;
	/** The sectors of its drive in the baseline. */
	readonly ghost: readonly SectorEvents[];
	readonly view: { readonly from: number; readonly to: number };
	readonly x: (time: number) => number;
	readonly width: number;
}

/** Readings closer than this cannot be told apart, px. */
const closest = 4;
/** A sector's number with room about it, px. */
const numberWidth = 24;
const stateClass = { 0: 'blanked', 1: 'not-crossed', 2: 'crossed', 3: 'ignored' } as const;

/** What one choice's detection did: blanking, crossings true and taken, commutations, readings and their votes. */
export function LaneMarks({ choice, lanes, data, ghost, view, x, width }: MarksProps) {
	const sense = lanes.find((lane) => lane.marks === choice && lane.unit === 'V');
	const votes = lanes.find((lane) => lane.marks === choice && lane.unit === 'votes');
	if (!sense || !votes) return null;
	const { sectors } = data.runs[choice];
	const isSeen = ({ begin, commutation }: SectorEvents): boolean => commutation >= view.from && begin <= view.to;
	const seen = sectors.filter(isSeen);
	const isClose = seen.length < width / 40;
	// every one, every second, fifth, tenth …
	const numbered = Math.max(1, roundStep((numberWidth * seen.length) / width));
	return (
		<g class={`marks ${choice}`}>
			{isClose && <Ghost sectors={ghost.filter(isSeen)} lane={sense} x={x} />}
			{seen.map((events) => (
				<SectorMarks
					key={events.sector}
					events={events}
					lane={sense}
					votes={votes}
					x={x}
					isClose={isClose}
					hasNumber={events.sector % numbered === 0}
				/>
			))}
			<Readings data={data} choice={choice} lane={sense} votes={votes} view={view} x={x} width={width} />
		</g>
	);
}

interface SectorProps {
	readonly events: SectorEvents;
	readonly lane: Lane;
	readonly votes: Lane;
	readonly x: (time: number) => number;
	readonly isClose: boolean;
	readonly hasNumber: boolean;
}

function SectorMarks({ events, lane, votes, x, isClose, hasNumber }: SectorProps) {
	const { begin, blankedUntil, acceptedAt, reached, commutation, trueCrossing, kind, sector } = events;
	const { top, height } = lane;
	const bottom = votes.top + votes.height;
	const wide = x(commutation) - x(begin);
	/** Where it begins to be seen: its number stands there, off the crossing in its middle. */
	const left = Math.max(0, x(begin));
	const blank = Math.min(blankedUntil, commutation);
	return (
		<g class={kind ?? 'fine'}>
			{blank > begin && <rect class="blanking" x={x(begin)} y={top} width={x(blank) - x(begin)} height={height} />}
			<path class="commutation" d={`M${x(commutation)} ${top}V${bottom}`} />
			{isClose && <path class="true-crossing" d={`M${x(trueCrossing)} ${top}v${height}`} />}
			{isClose && !Number.isNaN(reached) && (
				<path class="accepted" d={`M${x(acceptedAt)} ${top}v${height}m-4 0h8l-4 -7z`} />
			)}
			{kind !== null && (
				<text class="wrong" x={x(begin) + wide / 2} y={top + 13} text-anchor="middle">
					{wide > 110 ? eventWords[kind].replace(/s$/, '') : '!'}
				</text>
			)}
			{hasNumber && x(commutation) - left > numberWidth / 2 && (
				<text class="sector" x={left + 4} y={top + height - 5}>
					{sector}
				</text>
			)}
		</g>
	);
}

/** What its drive did in the baseline, under the present marks: hung from the lane's top where they stand on its ground. */
const Ghost = ({
	sectors,
	lane: { top, height },
	x,
}: Pick<SectorProps, 'lane' | 'x'> & { sectors: readonly SectorEvents[] }) => (
	<g class="ghost">
		{sectors.map(({ sector, acceptedAt, reached, commutation }) => (
			<g key={sector}>
				<path class="ghost-commutation" d={`M${x(commutation)} ${top}v${height}`} />
				{!Number.isNaN(reached) && (
					<path class="ghost-accepted" d={`M${x(acceptedAt)} ${top + height}v${-height}m-4 0h8l-4 7z`} />
				)}
			</g>
		))}
	</g>
);

interface ReadingsProps extends Omit<MarksProps, 'lanes' | 'ghost'> {
	readonly lane: Lane;
	readonly votes: Lane;
}

/** Each reading as the comparator saw it, and how many of the latest say "crossed". */
function Readings({ data, choice, lane, votes, view, x, width }: ReadingsProps) {
	const { readings, readingsLeftOut } = data.runs[choice];
	const span = view.to - view.from;
	const all: number[] = [];
	for (let at = 0; at < readings.length; at += readingStride) {
		const time = readings[at] as number;
		if (time >= view.from && time <= view.to) all.push(at);
	}
	if (readingsLeftOut > 0 || span <= 0) return null;
	const value = (at: number, of: number): number => readings[at + of] as number;
	if (all.length > width / closest) {
		const points = (of: number): string =>
			all.map((at) => `${x(value(at, 0)).toFixed(1)},${laneY(lane, clamp(value(at, of), lane)).toFixed(1)}`).join(' ');
		return (
			<g class="read">
				<polyline class="sense" points={points(1)} />
				<polyline class="threshold" points={points(2)} />
			</g>
		);
	}
	const step = votes.height / data.votes[1];
	return (
		<g class="readings">
			<path class="needed" d={`M0 ${laneY(votes, data.votes[0])}H${width}`} />
			{all.map((at) => {
				const time = x(value(at, 0));
				const state = value(at, 3) as keyof typeof stateClass;
				const count = value(at, 4);
				return (
					<g key={at} class={stateClass[state]}>
						<circle
							cx={time}
							cy={laneY(lane, clamp(value(at, 1), lane))}
							r={state === readingStates.crossed ? 3 : 2.5}
						/>
						{count > 0 && <rect class="vote" x={time - 1.5} y={laneY(votes, count)} width="3" height={count * step} />}
					</g>
				);
			})}
		</g>
	);
}

const clamp = (value: number, { low, high }: Lane): number => Math.min(high, Math.max(low, value));
