import { Ajv } from 'ajv';
import { parse, type Spec, View } from 'vega';
import { expressionInterpreter } from 'vega-interpreter';
import { compile, type TopLevelSpec } from 'vega-lite';
import schema from 'vega-lite/vega-lite-schema.json' with { type: 'json' };
import { describe, expect, test } from 'vitest';
import { budgetBars } from '../../shared/charts/budget-bars.ts';
import { envelopeShares } from '../../shared/charts/envelope-shares.ts';
import { errorBins } from '../../shared/charts/error-bins.ts';
import { errorCounts } from '../../shared/charts/error-counts.ts';
import { errorCumulative } from '../../shared/charts/error-cumulative.ts';
import { failingShares } from '../../shared/charts/failing-shares.ts';
import { gradeErrors, gradeShortfalls } from '../../shared/charts/grade-rows.ts';
import { drawPictures } from '../../shared/charts/pictures.ts';
import { rangeErrors, rangePassing } from '../../shared/charts/range-curves.ts';
import { hasTinyChance, rateIntervals } from '../../shared/charts/rate-intervals.ts';
import { sectorMeans } from '../../shared/charts/sector-means.ts';
import { spreadOrigins } from '../../shared/charts/spread-origins.ts';
import type { ChartTheme } from '../../shared/charts/theme.ts';
import { pairDifferences } from '../../shared/study/pair-differences.ts';
import { fewGrades, fewSpread } from '../page/long-results.ts';
import { choiceFigures, noneSeen, seen, studyResult } from '../page/study-fixture.ts';
import { envelopeResult, rangeResult } from '../range/range-fixture.ts';

const theme: ChartTheme = {
	ink: '#000000',
	quiet: '#444444',
	rule: '#cccccc',
	paper: '#ffffff',
	choice: {
		halfBus: { line: '#0000ff', fill: '#ccccff' },
		virtualNeutral: { line: '#aa5500', fill: '#ffddbb' },
	},
	font: 'sans-serif',
};

const choices = {
	halfBus: choiceFigures(0.3, 1.4),
	virtualNeutral: choiceFigures(-0.4, 2.3, { rates: { early: seen(4, 96_000), late: noneSeen, missed: noneSeen } }),
};
const noEvents = choiceFigures(0, 1, { rates: { early: noneSeen, late: noneSeen, missed: noneSeen } });
const bins = errorBins(choices);
if (!bins) throw new Error('the fixture has errors');

const grades = await fewGrades();
const { origins, budgets } = await fewSpread();
if (!budgets) throw new Error('the fixture has budgets');

/** 200 drives, the median with its interval, against 150 of a baseline. */
function paired() {
	const spread = (drives: number, shift: number) =>
		pairDifferences(
			Array.from({ length: drives }, (_, i) => shift + Math.sin(i)),
			new Array<number>(drives).fill(0),
		);
	const [point] = studyResult().points;
	if (!point) throw new Error('the fixture has points');
	const { differences } = drawPictures(
		{ ...point, paired: { ...point.paired, differences: spread(200, 0.1) } },
		bins,
		theme,
		{
			...point,
			paired: { ...point.paired, differences: spread(150, 0.3) },
		},
	);
	if (!differences) throw new Error('no picture');
	return differences;
}

const specs: Record<string, TopLevelSpec> = {
	'error counts': errorCounts(bins, theme, 'counts'),
	'cumulative errors': errorCumulative(bins, theme, 'cumulative'),
	'rates with intervals': rateIntervals(choices, theme, 'rates'),
	'rates with no event at all': rateIntervals({ halfBus: noEvents, virtualNeutral: noEvents }, theme, 'no events'),
	'paired differences': paired().spec,
	'means by sector': sectorMeans(choices, theme, 'sectors'),
	'errors by grade': gradeErrors(grades, theme, 'grades', grades),
	'drives that fail by grade': gradeShortfalls(grades, theme, 'grades', grades),
	'origins of the spread': spreadOrigins(origins, theme, 'origins', origins),
	'budgets side by side': budgetBars(budgets, theme, 'budgets', budgets),
	'errors over a range': rangeErrors(rangeResult(), theme, rangeResult()).spec,
	'passing drives over a range': rangePassing(rangeResult(), theme, rangeResult()).spec,
	'failing drives by operating point': failingShares(studyResult(), theme, studyResult()).spec,
	'failing drives by combination of limits': envelopeShares(envelopeResult(), theme, envelopeResult()).spec,
};

const validate = new Ajv({ strict: false, validateFormats: false }).compile(schema);
/** Drawn as on the page: expressions interpreted, never compiled. */
async function draw(spec: TopLevelSpec): Promise<string> {
	const runtime = parse(compile(spec).spec as Spec, undefined, { ast: true });
	const view = new View(runtime, { expr: expressionInterpreter, renderer: 'none' });
	const svg = await view.toSVG();
	view.finalize();
	return svg;
}

describe.each(Object.entries(specs))('the chart of %s', (_name, spec) => {
	test('keeps to the vega-lite schema', () => {
		validate(JSON.parse(JSON.stringify(spec)));
		expect(validate.errors).toBeNull();
	});

	test('draws both choices in their own colours, with interpreted expressions', async () => {
		const svg = await draw(spec);
		expect(svg).toContain(theme.choice.halfBus.line);
		expect(svg).toContain(theme.choice.virtualNeutral.line);
		expect(svg).not.toMatch(/NaN|undefined|Infinity/);
	});
});

test('the schema check can fail: an unknown kind of mark is refused', () => {
	expect(validate({ ...specs['error counts'], layer: [{ mark: 'thermometer' }] })).toBe(false);
});

test('the virtual neutral is dashed and half-bus is not', async () => {
	const svg = await draw(specs['cumulative errors'] as TopLevelSpec);
	const line = (colour: string): string => svg.match(new RegExp(`<path[^>]*stroke="${colour}"[^>]*>`))?.[0] ?? '';
	expect(line(theme.choice.virtualNeutral.line)).toContain('stroke-dasharray="5,3"');
	expect(line(theme.choice.halfBus.line)).toMatch(/stroke-dasharray="1,0"|^((?!dasharray).)*$/);
});

test('a rate of which no event was seen is an open mark, at its bound on drives', () => {
	const { datasets } = specs['rates with intervals'] as unknown as { datasets: { rates: Record<string, unknown>[] } };
	const missed = datasets.rates.find(
		({ event, choice }) => event === 'missed crossings' && choice === 'virtualNeutral',
	);
	// saved figures are the study's own; only the bar begins at the picture's edge
	expect(missed).toMatchObject({ open: true, rate: null, low: 0, high: 0.0037 });
	expect(missed?.drawnFrom).toBeGreaterThan(0);
	expect(missed?.says).toMatch(/none seen; at most 0\.4.% of drives affected/);
});

test('computed rates stand below the counted ones, those too small for the axis open at its end', () => {
	const computed = (rate: number, interval: [number, number] | null) => ({
		rate,
		perHour: 1e6 * rate,
		interval,
		effective: 500,
		largestShare: 0.01,
		largestUnit: 3,
		gain: null,
	});
	const early = computed(2e-7, [1e-7, 3e-7]);
	const others = { late: computed(1e-30, null), missed: computed(0, null), all: early };
	const both = { ...choices.halfBus, computed: { early, ...others } };
	const spec = rateIntervals({ halfBus: both, virtualNeutral: choices.virtualNeutral }, theme, '');
	// said in one word under its own kind, for which a report's small picture has room
	expect(JSON.stringify(spec)).toContain('\\"early false crossings, computed\\":[\\"computed\\"]');
	const { datasets } = spec as unknown as {
		datasets: { rates: Record<string, unknown>[] };
	};
	expect(datasets.rates.filter(({ event, choice }) => choice === 'halfBus' && /computed/.test(String(event)))).toEqual([
		expect.objectContaining({
			event: 'early false crossings, computed',
			rate: 2e-7,
			low: 1e-7,
			high: 3e-7,
			open: false,
		}),
		expect.objectContaining({ event: 'late crossings, computed', rate: null, high: 1e-12, open: true }),
		expect.objectContaining({ event: 'missed crossings, computed', rate: null, high: 1e-12, open: true }),
	]);
	expect(hasTinyChance({ halfBus: both, virtualNeutral: choices.virtualNeutral })).toBe(true);
	expect(hasTinyChance(choices)).toBe(false);
});

test('the rate axis is labelled with raised powers of ten from the decade below the lowest limit', async () => {
	const svg = await draw(specs['rates with intervals'] as TopLevelSpec);
	// the lowest limit is of 4 − 2√4 = 0 events; the next are rates of 4.2·10⁻⁵ (4 of 96 000)
	expect(svg).toContain('10⁻⁵');
	expect(svg).toContain('10⁻²');
	expect(svg).not.toContain('10⁻⁶');
});
