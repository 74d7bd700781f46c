import { View } from 'vega';
import { expect, onTestFinished, test } from 'vitest';
import { errorBins } from '../../shared/charts/error-bins.ts';
import { errorCounts } from '../../shared/charts/error-counts.ts';
import { chartView } from '../../src/page/parts/chart-view.ts';
import { pageTheme } from '../../src/page/parts/page-theme.ts';
import { choiceFigures } from '../page/study-fixture.ts';

/** The library's views that were run, the latest last. */
function viewsRun(): View[] {
	const { runAsync } = View.prototype;
	const run: View[] = [];
	View.prototype.runAsync = function (this: View, ...rest) {
		if (run.at(-1) !== this) run.push(this);
		return runAsync.apply(this, rest);
	};
	onTestFinished(() => {
		View.prototype.runAsync = runAsync;
	});
	return run;
}

/** Places in all tables that hang on a view, filled or not; what is drawn hangs on it by its marks, which are counted. */
function places(view: View): number {
	const seen = new Set<object>([view]);
	let count = 0;
	for (const one of seen) {
		for (const value of one instanceof Map ? one.values() : Object.values(one)) {
			count += 1;
			const isInner = (typeof value === 'object' && value !== null) || typeof value === 'function';
			if (isInner && !(value instanceof EventTarget)) seen.add(value);
		}
	}
	return count;
}

test('a chart that was given other figures 200 times keeps no more places for their rows than after 50', async () => {
	const host = document.createElement('div');
	document.body.append(host);
	const run = viewsRun();
	const chart = chartView(host, { onReadout: () => {} });
	onTestFinished(() => {
		chart.dispose();
		host.remove();
	});
	const after: number[] = [];
	for (let update = 1; update <= 200; update += 1) {
		const bins = errorBins({
			halfBus: choiceFigures(0, 1.4),
			virtualNeutral: choiceFigures(0, 2 + (update % 2) / 100),
		});
		if (!bins) throw new Error('the fixture has errors');
		await chart.show(errorCounts(bins, pageTheme(), `update ${update}`));
		const view = run.at(-1);
		if (view && update % 50 === 0) after.push(places(view));
	}
	expect(after).toHaveLength(4);
	const [first = 0, ...others] = after;
	expect(first).toBeGreaterThan(1000);
	// a row that is gone keeps its place in several tables: 7,000 places for every 50 updates
	for (const count of others) expect(count / first).toBeLessThan(1.01);
	expect(host.querySelectorAll('svg')).toHaveLength(1);
});
