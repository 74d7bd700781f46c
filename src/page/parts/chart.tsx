import { useEffect, useRef, useState } from 'preact/hooks';
import type { Picture } from '../../../shared/charts/pictures.ts';
import { specTable } from '../model/spec-table.ts';
import type { ChartView } from './chart-view.ts';
import { SavePicture } from './save-picture.tsx';

interface ChartProps {
	caption: string;
	/** What its files are called, without their ending. */
	saveAs: string;
	picture: Picture;
}

/** A picture with a text for those who cannot see it; its caption's end reads out what is under the pointer. */
export function Chart({ caption, saveAs, picture: { spec, describes } }: ChartProps) {
	const host = useRef<HTMLDivElement>(null);
	const view = useRef<ChartView | null>(null);
	const latest = useRef(spec);
	const [readout, setReadout] = useState('');
	const [problem, setProblem] = useState('');
	latest.current = spec;

	useEffect(() => {
		const element = host.current;
		if (!element) return;
		let gone = false;
		const watcher = new ResizeObserver(
			([entry]) => void view.current?.resize(Math.floor(entry?.contentRect.width ?? 0)),
		);
		import('./chart-view.ts')
			.then(async ({ chartView }) => {
				if (gone) return;
				view.current = chartView(element, setReadout);
				await view.current.resize(Math.floor(element.clientWidth));
				await view.current.show(latest.current);
				watcher.observe(element);
			})
			.catch((error: unknown) =>
				setProblem(`The picture could not be drawn: ${String(error)}. Its figures are in the table.`),
			);
		return () => {
			gone = true;
			watcher.disconnect();
			view.current?.dispose();
			view.current = null;
		};
	}, []);

	useEffect(() => {
		view.current?.show(spec).catch((error: unknown) => setProblem(`The picture could not be drawn: ${String(error)}`));
	}, [spec]);

	return (
		<figure>
			<figcaption>
				{caption}
				<span class="readout" aria-hidden="true">
					{readout}
				</span>
			</figcaption>
			{problem && <p class="problem">{problem}</p>}
			<div role="img" aria-label={describes}>
				<div ref={host} class="chart-host" aria-hidden="true" />
			</div>
			<SavePicture name={saveAs} svg={() => host.current?.querySelector('svg') ?? null} table={() => specTable(spec)} />
		</figure>
	);
}
