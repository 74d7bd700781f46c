import { parse, type Runtime, View } from 'vega';
import { expressionInterpreter } from 'vega-interpreter';
import { compile, type TopLevelSpec } from 'vega-lite';
import { nextTask } from './chart-turns.ts';

export interface ChartView {
	/** Shows a spec of the same shape with other data, or builds anew where the shape differs. */
	readonly show: (spec: TopLevelSpec) => Promise<void>;
	readonly resize: (width: number) => Promise<void>;
	/** The same at once: the browser does not wait before it prints. */
	readonly resizeNow: (width: number) => void;
	readonly dispose: () => void;
}

/** What is told of the pointer on a chart. */
export interface ChartWatch {
	/** The words for what is under the pointer, '' for nothing. */
	readonly onReadout: (words: string) => void;
	/** The row of data that was clicked. */
	readonly onPick?: (row: Readonly<Record<string, unknown>>) => void;
}

/**
 * A chart in `host`, drawn as SVG so that its colours follow the stylesheet
 * and print is sharp. Loaded when the first chart is wanted, never before.
 */
export function chartView(host: HTMLElement, { onReadout, onPick }: ChartWatch): ChartView {
	let view: View | null = null;
	let shape = '';
	let updates = 0;
	let width = 0;
	let isDisposed = false;

	/** What draws a spec, not yet in the page: the one before stays until it is filled. */
	const build = (runtime: Runtime): View => {
		// the interpreter walks the expressions: nothing is compiled from strings, as the content security policy asks
		const built = new View(runtime, {
			expr: expressionInterpreter,
			renderer: 'svg',
			hover: true,
			tooltip: (_handler, _event, _item, value) => onReadout(typeof value === 'string' ? value : ''),
		});
		// marks that are gone would be kept, up to 10,000 for each kind of them, and every update replaces all
		Object.assign(built, { cleanThreshold: 0 });
		if (onPick) {
			built.addEventListener('click', (_event, item) => {
				const row: unknown = item?.datum;
				if (typeof row === 'object' && row !== null) onPick(row as Readonly<Record<string, unknown>>);
			});
		}
		return built;
	};

	return {
		show: async (spec) => {
			const next = shapeOf(spec);
			if (!view || next !== shape || updates >= mostUpdates) {
				const runtime = await runtimeOf(spec, next);
				if (isDisposed) return;
				const built = build(runtime);
				await nextTask();
				if (isDisposed) return;
				view?.finalize();
				view = built.initialize(host);
				if (width > 0) view.width(width);
				shape = next;
				updates = 0;
			}
			updates += 1;
			for (const [name, rows] of Object.entries(datasetsOf(spec))) view.data(name, [...rows]);
			await view.runAsync();
		},
		resize: async (next) => {
			if (next === width) return;
			width = next;
			await view?.width(next).runAsync();
		},
		resizeNow: (next) => {
			width = next;
			view?.width(next).run();
		},
		dispose: () => {
			isDisposed = true;
			view?.finalize();
			view = null;
		},
	};
}

/**
 * A view is built anew after so many updates, from what is compiled already: it keeps a place for every row that it was
 * ever given, in tables by the row's running number.
 */
const mostUpdates = 50;

/** So many shapes are kept compiled: a chart goes back and forth between a few. */
const mostKept = 24;
const kept = new Map<string, Runtime>();

/** A spec compiled without its data, which are given to the view; in several tasks, each of which takes some 20 ms. */
async function runtimeOf(spec: TopLevelSpec, shape: string): Promise<Runtime> {
	const known = kept.get(shape);
	if (known) return known;
	const empty = Object.fromEntries(Object.keys(datasetsOf(spec)).map((name) => [name, []]));
	// what is drawn is told by a text and a table beside it: words on every mark would be worked out for nobody
	const compiled = compile({ ...spec, datasets: empty, config: { ...spec.config, aria: false } }).spec;
	await nextTask();
	const made = parse(compiled, undefined, { ast: true });
	await nextTask();
	kept.set(shape, made);
	for (const oldest of kept.keys()) {
		if (kept.size <= mostKept) break;
		kept.delete(oldest);
	}
	return made;
}

const datasetsOf = (spec: TopLevelSpec): Readonly<Record<string, readonly object[]>> =>
	(spec.datasets ?? {}) as Record<string, object[]>;

const shapeOf = (spec: TopLevelSpec): string =>
	JSON.stringify({ ...spec, description: '', datasets: Object.keys(datasetsOf(spec)) });
