import { expect, test } from 'vitest';
import { originsHeadline } from '../../shared/origins/headline.ts';
import { figuresPerRun } from '../../shared/origins/mean-errors.ts';
import type { ChoiceOrigins, OriginsResult } from '../../shared/origins/origins-result.ts';
import { shareWords } from '../../shared/origins/origins-sentence.ts';
import type { SpreadGroup } from '../../shared/origins/spread-groups.ts';
import { sharesStand, summariseOrigins } from '../../shared/origins/summarise-origins.ts';
import type { Report } from '../../shared/report/report.ts';
import { origins } from '../../shared/report/sections/origins.ts';
import { stream } from '../../shared/sampling/stream.ts';
import { originsTable } from '../../src/command-line/origins-table.ts';
import { ishigami, type Model } from '../statistics/pick-freeze-design.ts';
import { oneSpeed } from './one-speed.ts';
import { provenance } from './provenance.ts';

const scenario = oneSpeed({});
const groups: SpreadGroup[] = [0, 1, 2, 3].map((input) => ({
	id: `x${input}`,
	name: `the input ${input}`,
	parts: [],
	starts: [],
	varies: input < 3,
}));

/** Figures of a model of three inputs laid out as the workers lay them: kind k is the model times `weights[k]`. */
function figuresOf(model: Model, rows: number, weights: readonly number[], seed = 'layout') {
	const next = stream(seed, 'test');
	const figures = new Float64Array(rows * 5 * figuresPerRun);
	for (let row = 0; row < rows; row += 1) {
		const [a, b] = [0, 1].map(() => [next.double(), next.double(), next.double()]) as [number[], number[]];
		const mixes = [0, 1, 2].map((input) => a.map((u, i) => (i === input ? (b[i] as number) : u)));
		[a, b, ...mixes].forEach((inputs, place) => {
			for (let cell = 0; cell < figuresPerRun; cell += 1) {
				figures[(row * 5 + place) * figuresPerRun + cell] = model(inputs) * (weights[cell % 6] as number);
			}
		});
	}
	return figures;
}
const summarised = (figures: Float64Array, done = new Uint8Array(figures.length / figuresPerRun).fill(1)) =>
	summariseOrigins({ scenario, point: 0, groups, figures, done, correlations: null, provenance });

test('shares stand once no interval is wider than two per cent: a sum that one input makes nearly alone, from 80,000 rows', () => {
	const nearlyAlone: Model = ([a = 0, b = 0, c = 0]) => a + 0.01 * b + 0.01 * c;
	const stands = (model: Model, rows: number): boolean => {
		const figures = figuresOf(model, rows, [1, 1, 1, 1, 1, 1]);
		const done = new Uint8Array(figures.length / figuresPerRun).fill(1);
		const { groups: shares } = summarised(figures, done).choices.halfBus;
		const widest = Math.max(...shares.flatMap(({ first, total }) => [first.high - first.low, total.high - total.low]));
		const found = sharesStand({ groups, figures, done }, provenance.level);
		expect(found).toBe(widest <= 0.02);
		return found;
	};
	expect(stands(nearlyAlone, 80_000)).toBe(true);
	expect(stands(nearlyAlone, 20_000)).toBe(false);
	expect(stands(ishigami, 20_000)).toBe(false);
	// too few rows for an interval show nothing
	expect(stands(nearlyAlone, 10)).toBe(false);
});

test('the Ishigami function comes out with S .314 .442 0 and S_T .558 .442 .244 from 20,000 rows, its interaction as .244', () => {
	// Ishigami and Homma 1990 with a = 7, b = 0.1: recomputed, rounded figures quoted from Saltelli 2008
	const { choices, rows, drivesPerRow } = summarised(figuresOf(ishigami, 20_000, [1, 1, 1, 1, 1, 1]));
	expect({ rows, drivesPerRow }).toEqual({ rows: 20_000, drivesPerRow: 5 });
	const { groups: shares, together, togetherInterval, still, spread } = choices.virtualNeutral;
	const known: Readonly<Record<string, readonly [number, number]>> = {
		x0: [0.313905191, 0.557588855],
		x1: [0.442411145, 0.442411145],
		x2: [0, 0.243683664],
	};
	expect(shares.map(({ id }) => id)).toEqual(['x0', 'x1', 'x2']);
	for (const { id, first, total } of shares) {
		expect(Math.abs(first.value - (known[id]?.[0] ?? 0))).toBeLessThan(0.03);
		expect(Math.abs(total.value - (known[id]?.[1] ?? 0))).toBeLessThan(0.03);
		expect(first.low).toBeLessThan(first.value);
		expect(total.high).toBeGreaterThan(total.value);
	}
	expect(together).toBeCloseTo(0.243683664, 1);
	const [least = 0, most = 0] = togetherInterval ?? [];
	expect(least).toBeLessThan(0.243683664);
	expect(most).toBeGreaterThan(0.243683664);
	expect(most - least).toBeLessThan(0.1);
	expect(still).toEqual(['the input 3']);
	expect(spread).toBeCloseTo(Math.sqrt(13.844587941), 1);
}, 60_000);

test('sector kinds count by their variance: one kind of twenty times the size decides', () => {
	const half: Model = ([x = 0]) => x;
	const other: Model = ([, y = 0]) => y;
	const first = figuresOf(half, 2000, [1, 1, 1, 1, 1, 0]);
	const last = figuresOf(other, 2000, [0, 0, 0, 0, 0, 20]);
	const { choices } = summarised(first.map((value, cell) => value + (last[cell] as number)));
	// variances 5 · 1 and 400: y owes 400/405
	const y = choices.halfBus.groups[0];
	expect(y?.id).toBe('x1');
	expect(Math.abs((y?.first.value ?? 0) - 400 / 405)).toBeLessThan(0.06);
	expect(y?.kinds.total[0]).toBe(0);
	expect(y?.kinds.total[5]).toBeGreaterThan(0.9);
});

test('a row with a drive that has no figure, or was not finished, is left out of its choice and counted', () => {
	const figures = figuresOf(([x = 0, y = 0]) => x + y, 50, [1, 1, 1, 1, 1, 1]);
	figures[(7 * 5 + 3) * figuresPerRun + 2] = Number.NaN; // half-bus, row 7
	const done = new Uint8Array(250).fill(1);
	done[12 * 5 + 1] = 0;
	const { choices, sentence } = summarised(figures, done);
	expect(choices.halfBus).toMatchObject({ rows: 48, rowsWithout: 1 });
	expect(choices.virtualNeutral).toMatchObject({ rows: 49, rowsWithout: 0 });
	const missing = ({ squares = [] }: ChoiceOrigins) => squares.flatMap((one, row) => (Number.isNaN(one) ? [row] : []));
	expect([missing(choices.halfBus), missing(choices.virtualNeutral)]).toEqual([[7, 12], [12]]);
	expect(sentence).toContain('Of the half-bus spread at rated');
});

test('19 rows share nothing out, and no row at all says so', () => {
	const few = summarised(figuresOf(([x = 0]) => x, 19, [1, 1, 1, 1, 1, 1]));
	expect(few.sentence).toContain('19 rows of drives are too few');
	const none = summarised(figuresOf(() => Number.NaN, 30, [1, 1, 1, 1, 1, 1]));
	expect(none.sentence).toContain('in each of the 30 rows of drives at least one lost lock or found no crossing');
	expect(none.choices.halfBus.rowsWithout).toBe(30);
});

test('from fewer than 20 whole rows no surface shows a share: the headline and the report say why, and nothing is NaN', () => {
	const wholeRows = (whole: number, isFinished = true) => {
		const figures = figuresOf(([x = 0, y = 0]) => x + y, 30, [1, 1, 1, 1, 1, 1]);
		figures.fill(Number.NaN, whole * 5 * figuresPerRun);
		return summarised(figures, new Uint8Array(150).fill(isFinished ? 1 : 0));
	};
	const reported = (result: OriginsResult) =>
		JSON.stringify(origins({ calculations: [{ name: 'origins', result }] } as unknown as Report));
	const few = wholeRows(5);
	expect(originsHeadline(few)).toContain(
		'too few rows of drives are whole to share out the spread with half-bus; too few',
	);
	expect(reported(few)).toContain('5 rows of drives are too few to share out the spread: it takes 20');
	expect(reported(few)).toContain('25 of 30 rows are left out');
	expect(reported(few)).not.toContain('NaN');
	expect(originsHeadline(wholeRows(0))).toContain(
		'half-bus loses lock or finds no crossing in some drive of every row',
	);
	const none = wholeRows(0, false);
	expect(originsHeadline(none)).toMatch(/^At rated nothing is known of half-bus yet; nothing is known of virtual/);
	// no heading without anything under it
	expect(originsTable(none)).not.toContain('── half-bus');
	expect(originsTable(few)).toContain('── half-bus');
	// twenty make shares
	expect(reported(wholeRows(20))).toMatch(/shares of the variance/);
	expect(originsHeadline(wholeRows(20))).toContain('half-bus spreads by');
});

test('what parts do together is spoken of where it is shown: of 200 sums of parts in 60 rows seldom, of a product always', () => {
	const sum: Model = ([x = 0, y = 0, z = 0]) => x + y + z;
	const product: Model = ([x = 0, y = 0, z = 0]) => (x - 0.5) * (y - 0.5) + 0.01 * z;
	const spoken = (model: Model, rows: number, seed?: string) => {
		const { choices, sentence } = summarised(figuresOf(model, rows, [1, 1, 1, 1, 1, 1], seed));
		return { ...choices.halfBus, isTold: sentence.includes('do together and none alone') };
	};
	const sums = Array.from({ length: 200 }, (_, i) => spoken(sum, 60, `sum ${i}`));
	const least = (one: (typeof sums)[0]): number => one.togetherInterval?.[0] ?? 0;
	const most = (one: (typeof sums)[0]): number => one.togetherInterval?.[1] ?? 0;
	// their share is 0: the 95 % limits hold it in all but 10 of 200, give or take three standard errors of 3.1
	expect(Math.abs(sums.filter((one) => least(one) > 0 || most(one) < 0).length - 10)).toBeLessThan(10);
	// by the estimate alone, of many it would be told
	expect(sums.filter(({ together }) => together > 0.1).length).toBeGreaterThan(30);
	expect(sums.filter(({ isTold }) => isTold).length).toBeLessThan(13);
	expect(spoken(product, 500).isTold).toBe(true);
});

test('a group that varies alone makes all of the spread, by itself', () => {
	// rows of three drives: A, B, and A with the one input from B
	const next = stream('alone', 'test');
	const rows = 40;
	const figures = new Float64Array(rows * 3 * figuresPerRun);
	for (let row = 0; row < rows; row += 1) {
		const [a, b] = [next.double(), next.double()];
		[a, b, b].forEach((value, place) => {
			figures.fill(value * value, (row * 3 + place) * figuresPerRun, (row * 3 + place + 1) * figuresPerRun);
		});
	}
	const { choices, sentence } = summariseOrigins({
		scenario,
		point: 0,
		groups: groups.map((group, input) => ({ ...group, varies: input === 0 })),
		figures,
		done: new Uint8Array(rows * 3).fill(1),
		correlations: null,
		provenance,
	});
	const all = { value: 1, low: 1, high: 1 };
	expect(choices.halfBus.groups).toMatchObject([{ id: 'x0', first: all, total: all }]);
	expect(choices.halfBus).toMatchObject({ together: 0, togetherInterval: null });
	expect(sentence).toMatch(
		/^All of the half-bus spread at rated \(0\.\d+° standard deviation\) comes from the input 0: nothing else varies\. /,
	);
});

test('no share is told as more than all of the spread', () => {
	expect([1.09, 1.004, 1, 0.996].map(shareWords)).toEqual(Array.from({ length: 4 }, () => '100\u00a0%'));
	expect(shareWords(0.5)).toBe('50\u00a0%');
});

test('figures that do not vary at all are said to spread nowhere, not to be too few', () => {
	const still = summarised(figuresOf(() => 1, 40, [1, 1, 1, 1, 1, 1]));
	expect(still.sentence).toContain(
		'With half-bus at rated nothing spreads: the mean errors of all drives are the same.',
	);
	expect(still.sentence).not.toContain('too few');
});
