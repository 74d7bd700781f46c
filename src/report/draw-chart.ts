import { parse, View } from 'vega';
import { expressionInterpreter } from 'vega-interpreter';
import { compile, type TopLevelSpec } from 'vega-lite';

/** Draws a chart as SVG text, on any host: expressions are interpreted, nothing is compiled from strings, no canvas is wanted. */
export async function drawChart(spec: TopLevelSpec): Promise<string> {
	const view = new View(parse(compile(spec).spec, undefined, { ast: true }), {
		expr: expressionInterpreter,
		renderer: 'none',
	});
	try {
		return await view.toSVG();
	} finally {
		view.finalize();
	}
}
