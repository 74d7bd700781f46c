import { useMemo } from 'preact/hooks';
import { type Lane, laneY, tickWords } from '../../../../shared/one-drive/lanes.ts';
import { LaneTitle } from './picture-key.tsx';

/** A lane's ground, title and scale. */
export function LaneFrame({ lane, gutter, width }: { lane: Lane; gutter: number; width: number }) {
	const { top, height, ticks } = lane;
	return (
		<g class="lane-frame">
			<rect class="ground" x={gutter} y={top} width={width} height={height} />
			<LaneTitle lane={lane} gutter={gutter} width={width} />
			{ticks.map((tick) => (
				<g key={tick}>
					<path class={tick === 0 ? 'zero' : 'grid'} d={`M${gutter} ${laneY(lane, tick)}h${width}`} />
					<text class="tick" x={gutter - 5} y={laneY(lane, tick) + 4} text-anchor="end">
						{tickWords(tick)}
					</text>
				</g>
			))}
		</g>
	);
}

/**
 * All traces, in columns of the window that was simulated: moving and zooming stretches them, no more.
 *
 * @param columns that the traces run over
 */
export function LaneTraces({ lanes, columns }: { lanes: readonly Lane[]; columns: number }) {
	return useMemo(
		() => (
			<g class="traces">
				{lanes.map(({ name, top, height }) => (
					<clipPath key={name} id={clipName(name)}>
						<rect x="0" y={top} width={columns} height={height} />
					</clipPath>
				))}
				{lanes.flatMap((lane) =>
					lane.paths.map(({ trace, d }) => (
						<path
							clip-path={`url(#${clipName(lane.name)})`}
							key={`${lane.name} ${trace}`}
							class={`${trace} ${lane.marks ?? ''}`}
							d={d}
							vector-effect="non-scaling-stroke"
						/>
					)),
				)}
			</g>
		),
		[lanes, columns],
	);
}

const clipName = (lane: string): string => `clip ${lane}`.replaceAll(' ', '-');
