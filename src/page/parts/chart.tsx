import { useContext, useEffect, useRef, useState } from 'preact/hooks';
import type { TopLevelSpec } from 'vega-lite';
import type { Picture } from '../../../shared/charts/pictures.ts';
import { specTable } from '../model/spec-table.ts';
import { leaveTurns, takeTurn } from './chart-turns.ts';
import type { ChartView, ChartWatch } from './chart-view.ts';
import { PictureSource } from './picture-source.ts';
import { SavePicture } from './save-picture.tsx';

interface ChartProps {
	caption: string;
	/** What its files are called, without their ending. */
	saveAs: string;
	picture: Picture;
	/** Told the row of data that was clicked; whatever a click does must be within a keyboard's reach elsewhere. */
	onPick?: ChartWatch['onPick'];
}

/** What a sheet of A4 has between its margins (print.css), CSS pixels: drawn for that, words keep their size on paper. */
const paperWidth = 670;

/** A picture with a text for those who cannot see it; its caption's end reads out what is under the pointer. */
export function Chart({ caption, saveAs, picture: { spec, describes }, onPick }: ChartProps) {
	const host = useRef<HTMLDivElement>(null);
	const view = useRef<ChartView | null>(null);
	const isNear = useRef(true);
	const latest = useRef({ spec, onPick });
	const source = useContext(PictureSource);
	const [readout, setReadout] = useState('');
	const [problem, setProblem] = useState('');
	latest.current = { spec, onPick };

	const draw = (): void =>
		takeTurn(host, {
			isNear: () => isNear.current,
			draw: async () => {
				try {
					await view.current?.show(latest.current.spec);
					setProblem('');
				} catch (error) {
					setProblem(`The picture could not be drawn: ${String(error)}. Its figures are in the table.`);
				}
			},
		});

	useEffect(() => {
		const element = host.current;
		if (!element) return;
		let gone = false;
		const widths = new ResizeObserver(
			([entry]) => void view.current?.resize(Math.floor(entry?.contentRect.width ?? 0)),
		);
		// within half a screen of being seen
		const sight = new IntersectionObserver(([entry]) => (isNear.current = entry?.isIntersecting ?? true), {
			rootMargin: '50% 0px',
		});
		sight.observe(element);
		const toPaper = (): void => view.current?.resizeNow(Math.min(paperWidth, element.clientWidth));
		const toScreen = (): void => view.current?.resizeNow(Math.floor(element.clientWidth));
		addEventListener('beforeprint', toPaper);
		addEventListener('afterprint', toScreen);
		import('./chart-view.ts')
			.then(async ({ chartView }) => {
				if (gone) return;
				const picks: ChartWatch['onPick'] = (row) => latest.current.onPick?.(row);
				view.current = chartView(element, { onReadout: setReadout, ...(onPick && { onPick: picks }) });
				await view.current.resize(Math.floor(element.clientWidth));
				draw();
				widths.observe(element);
			})
			.catch((error: unknown) =>
				setProblem(`The picture could not be drawn: ${String(error)}. Its figures are in the table.`),
			);
		return () => {
			gone = true;
			removeEventListener('beforeprint', toPaper);
			removeEventListener('afterprint', toScreen);
			widths.disconnect();
			sight.disconnect();
			leaveTurns(host);
			view.current?.dispose();
			view.current = null;
		};
	}, []);

	useEffect(() => {
		if (view.current) draw();
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
				<div ref={host} class={`chart-host${onPick ? ' can-pick' : ''}`} aria-hidden="true" />
			</div>
			<SavePicture
				name={saveAs}
				svg={() => host.current?.querySelector('svg') ?? null}
				table={() => specTable(spec)}
				words={() => ({ caption, source: source(), hasGhost: hasGhost(spec) })}
			/>
		</figure>
	);
}

/** Whether a baseline is drawn in. */
const hasGhost = ({ datasets }: TopLevelSpec): boolean => datasets !== undefined && 'ghost' in datasets;
