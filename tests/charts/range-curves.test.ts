import { expect, test } from 'vitest';
import { failingShares } from '../../shared/charts/failing-shares.ts';
import { freePlace } from '../../shared/charts/free-place.ts';
import { rangeErrors, rangePassing } from '../../shared/charts/range-curves.ts';
import { type RangeRow, rangeRows } from '../../shared/charts/range-rows.ts';
import type { ChartTheme } from '../../shared/charts/theme.ts';
import { drawChart } from '../../src/report/draw-chart.ts';
import { studyResult } from '../page/study-fixture.ts';
import { rangeResult } from '../range/range-fixture.ts';

const mark = { line: '', fill: '' };
const theme: ChartTheme = {
	ink: '',
	quiet: '',
	rule: '',
	paper: '',
	font: '',
	choice: { halfBus: mark, virtualNeutral: mark },
};
const at = (rows: readonly RangeRow[], choice: string, speed: number) =>
	rows.find((row) => row.choice === choice && row.at === speed);

test('rows rise with the parameter; a value where 1 drive in 20 loses lock has no figure and breaks its curve', () => {
	const rows = rangeRows(rangeResult());
	expect(rows.filter(({ choice }) => choice === 'halfBus').map((row) => row.at)).toEqual([500, 820, 1200, 3000]);
	expect(at(rows, 'halfBus', 500)).toMatchObject({ lost: true, worse: null, worseLow: null, median: 9 });
	expect(at(rows, 'halfBus', 820)).toMatchObject({ lost: false, searched: true, decision: 'holds' });
	expect(at(rows, 'virtualNeutral', 500)?.stretch).toBe(0);
	expect(at(rows, 'halfBus', 820)?.stretch).toBe(1);
	expect(at(rows, 'halfBus', 500)?.says).toMatch(/^Half-bus at 500.rpm: 1 in 20 loses lock; 2\.5.% of drives pass/);
});

test.each([640, 300, 150])(
	'at %d px labels of both ends stand on the axis of nine speeds, the unit once in its title',
	async (width) => {
		const values = [540, 685, 868, 1100, 1390, 1770, 2240, 2840, 3600];
		const result = rangeResult();
		const { spec } = rangeErrors({ ...result, axes: result.axes.map((axis) => ({ ...axis, values })) }, theme);
		const svg = await drawChart({ ...spec, width } as typeof spec);
		const labels = [...svg.matchAll(/<text[^>]*>(\d{3,4})<\/text>/g)].map(([, label]) => Number(label));
		expect(labels).toContain(540);
		expect(labels).toContain(3600);
		expect(labels.length).toBeLessThanOrEqual(width / 30);
		expect(svg).toMatch(/>speed, rpm<\/text>/);
	},
);

test('errors are drawn up to 4 times the limit, so that the crossing of 5° stays readable beside 30°', () => {
	const result = rangeResult();
	const [first, ...rest] = result.values;
	if (!first) throw new Error('the fixture has values');
	const { halfBus, virtualNeutral } = first.choices;
	const wild = {
		...virtualNeutral,
		unitError: { ...virtualNeutral.unitError, q95: 30, q95Interval: [28, 33] as const },
	};
	const { spec } = rangeErrors(
		{ ...result, values: [{ ...first, choices: { halfBus, virtualNeutral: wild } }, ...rest] },
		theme,
	);
	expect(JSON.stringify(spec)).toContain('"domain":[0,20]');
	expect(JSON.stringify(rangeErrors({ ...result, values: rest }, theme).spec)).not.toContain('"domain":[0,20]');
});

test('both pictures say in words what they show: ends, least error, where the requirement holds', () => {
	expect(rangeErrors(rangeResult(), theme).describes).toMatch(
		/the limit is 5\.00°\. Half-bus: lock lost at 500.rpm to 3\.00° at 3000.rpm\. Virtual neutral: 11\.0° at 500.rpm to 3\.20° at 3000.rpm\.$/,
	);
	expect(rangePassing(rangeResult(), theme).describes).toMatch(
		/95.% are required.*Virtual neutral: 23\.5.% at 500.rpm to 100.% at 3000.rpm; the requirement holds at 1200.rpm, 3000.rpm\.$/,
	);
});

test('the slowest speeds that hold are marked, 820 rpm and 1200 rpm, each once', () => {
	const { datasets } = rangePassing(rangeResult(), theme).spec as unknown as {
		datasets: { ends: { choice: string; at: number }[] };
	};
	expect(datasets.ends.map((one) => [one.choice, one.at])).toEqual([
		['halfBus', 820],
		['virtualNeutral', 1200],
	]);
});

test('words stand where no line runs: off steep curves and upright lines, else on the fewest', () => {
	const box = { width: 0.3, low: 0.83, high: 0.95 };
	const rising = [
		[0, 0.1],
		[0.3, 1],
		[1, 1],
	] as const;
	// it leaves the box at 0.95, which is 0.28 of the width
	expect(freePlace(box, [rising], [], 'left')).toBeCloseTo(0.315, 9);
	expect(freePlace(box, [rising], [0.4], 'left')).toBeCloseTo(0.42, 9);
	expect(freePlace(box, [], [], 'left')).toBe(0);
	expect(freePlace(box, [], [], 'right')).toBe(1);
	expect(freePlace(box, [rising], [0.5, 0.6], 'right')).toBe(1);
	expect(freePlace(box, [], [0, 0.25, 0.5, 0.75, 1], 'left')).toBeCloseTo(0.035, 9);
});

test('in a narrow picture each slowest speed stands beside its own line, on the side away from the other, over a rim of paper', () => {
	const { datasets, layer } = rangePassing(rangeResult(), theme).spec as unknown as {
		datasets: { ends: { choice: string; side: string }[] };
		layer: { data?: { name?: string }; mark: { type: string; align?: string; strokeWidth?: number } }[];
	};
	expect(datasets.ends.map(({ side }) => side)).toEqual(['left', 'right']);
	const words = layer.filter(({ data, mark }) => data?.name === 'ends' && mark.type === 'text');
	expect(words.map(({ mark }) => mark.strokeWidth)).toEqual([4, undefined, 4, undefined]);
});

test('of 1000 drives 960 pass a point: 4 % fail there, 1 % with half-bus over all points, none is an open mark', () => {
	const result = studyResult();
	const [slow, ...others] = result.points;
	if (!slow) throw new Error('the fixture has points');
	const perfect = { ...slow.choices.halfBus, passing: { ...slow.choices.halfBus.passing, passed: 1000 } };
	const { spec } = failingShares(
		{ ...result, points: [{ ...slow, choices: { ...slow.choices, halfBus: perfect } }, ...others] },
		theme,
	);
	const { failing } = (spec as unknown as { datasets: { failing: Record<string, unknown>[] } }).datasets;
	const of = (place: string, choice: string) => failing.find((row) => row.place === place && row.choice === choice);
	expect(of('all points', 'halfBus')?.failing).toBeCloseTo(0.01, 12);
	expect(of('slow', 'virtualNeutral')?.failing).toBeCloseTo(0.04, 12);
	// none of 1000 fails: 1 − 0.05^(1/1000), the exact upper limit
	expect(of('slow', 'halfBus')).toMatchObject({ none: true });
	expect(of('slow', 'halfBus')?.high).toBeCloseTo(1 - 0.05 ** (1 / 1000), 12);
});
