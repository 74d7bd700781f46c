import { useMemo } from 'preact/hooks';
import { type Lane, laneY } from '../../model/one-drive/lanes.ts';

/** A lane's ground, title and scale. */
export function LaneFrame({ lane, gutter, width }: { lane: Lane; gutter: number; width: number }) {
	const { top, height, ticks, title, unit } = lane;
	return (
		<g class="lane-frame">
			<rect class="ground" x={gutter} y={top} width={width} height={height} />
			<text class="title" x={gutter} y={top - 5}>
				{title}
			</text>
			{ticks.map((tick) => (
				<g key={tick}>
					<path class={tick === 0 ? 'zero' : 'grid'} d={`M${gutter} ${laneY(lane, tick)}h${width}`} />
					<text class="tick" x={gutter - 5} y={laneY(lane, tick) + 4} text-anchor="end">
						{Number(tick.toPrecision(6)).toString().replace('-', '−')}
						{tick === ticks.at(-1) && unit !== 'votes' ? ` ${unit}` : ''}
					</text>
				</g>
			))}
		</g>
	);
}

/** All traces, in columns of the window that was simulated: moving and zooming stretches them, no more. */
export function LaneTraces({ lanes }: { lanes: readonly Lane[] }) {
	return useMemo(
		() => (
			<g class="traces">
				{lanes.flatMap((lane) =>
					lane.paths.map(({ trace, d }) => (
						<path
							key={`${lane.name} ${trace}`}
							class={`${trace} ${lane.marks ?? ''}`}
							d={d}
							vector-effect="non-scaling-stroke"
						/>
					)),
				)}
			</g>
		),
		[lanes],
	);
}
