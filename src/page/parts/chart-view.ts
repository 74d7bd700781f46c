import { parse, View } from 'vega';
import { expressionInterpreter } from 'vega-interpreter';
import { compile, type TopLevelSpec } from 'vega-lite';

export interface ChartView {
	/** Shows a spec of the same shape with other data, or builds anew where the shape differs. */
	readonly show: (spec: TopLevelSpec) => Promise<void>;
	readonly resize: (width: number) => Promise<void>;
	readonly dispose: () => void;
}

/**
 * A chart in `host`, drawn as SVG so that its colours follow the stylesheet
 * and print is sharp. Loaded when the first chart is wanted, never before.
 *
 * @param onReadout told the words for what is under the pointer, '' for nothing
 */
export function chartView(host: HTMLElement, onReadout: (words: string) => void): ChartView {
	let view: View | null = null;
	let shape = '';
	let width = 0;

	const build = async (spec: TopLevelSpec): Promise<void> => {
		view?.finalize();
		// the interpreter walks the expressions: nothing is compiled from strings, as the content security policy asks
		view = new View(parse(compile(spec).spec, undefined, { ast: true }), {
			expr: expressionInterpreter,
			renderer: 'svg',
			container: host,
			hover: true,
			tooltip: (_handler, _event, _item, value) => onReadout(typeof value === 'string' ? value : ''),
		});
		if (width > 0) view.width(width);
		await view.runAsync();
	};

	return {
		show: async (spec) => {
			const next = shapeOf(spec);
			if (!view || next !== shape) {
				shape = next;
				await build(spec);
				return;
			}
			for (const [name, rows] of Object.entries(datasetsOf(spec))) view.data(name, [...rows]);
			await view.runAsync();
		},
		resize: async (next) => {
			if (next === width) return;
			width = next;
			await view?.width(next).runAsync();
		},
		dispose: () => {
			view?.finalize();
			view = null;
		},
	};
}

const datasetsOf = (spec: TopLevelSpec): Readonly<Record<string, readonly object[]>> =>
	(spec.datasets ?? {}) as Record<string, object[]>;

const shapeOf = (spec: TopLevelSpec): string =>
	JSON.stringify({ ...spec, description: '', datasets: Object.keys(datasetsOf(spec)) });
