import { inverseNormal } from '../../shared/maths/inverse-normal.ts';
import { failureMixture } from '../../shared/rare/failure-mixture.ts';
import { type Stream, stream } from '../../shared/sampling/stream.ts';
import { binomialConfidenceSequence } from '../../shared/statistics/binomial-confidence-sequence.ts';
import type { Interval } from '../../shared/statistics/interval.ts';
import { medianDifference } from '../../shared/statistics/median-difference.ts';
import { orderStatisticInterval } from '../../shared/statistics/order-statistic-interval.ts';
import { rateRatio } from '../../shared/statistics/rate-ratio.ts';
import { ratioEstimate } from '../../shared/statistics/ratio-estimate.ts';
import { sensitivityIntervals } from '../../shared/statistics/sensitivity-indices.ts';
import { pairedShareDifference, shareDifference } from '../../shared/statistics/share-difference.ts';
import { spreadChange } from '../../shared/statistics/spread-change.ts';
import { unevenMean } from '../../shared/statistics/uneven-mean.ts';
import { equalParetoProduct, type KnownLimit, paretoProduct } from '../rare/known-limits.ts';
import { runSearch, sampleFailures, widened } from '../rare/run-search.ts';
import { design, ishigami } from './pick-freeze-design.ts';
import { rowsOfTwo } from './rows-of-two.ts';

/** One situation in which an interval's coverage is counted. */
export interface CoverageCase {
	readonly name: string;
	/** True where ten or more affected units (or trials either way) are expected. */
	readonly ordinary: boolean;
	/** What the interval is to hold. */
	readonly truth: number;
	/** The interval of one replicate; null where it makes no statement. */
	readonly interval: (source: Stream, replicate: number) => Interval | null;
}

/** How many of the replicates a case's interval held the truth, lay above it, lay below it, made no statement. */
export interface CoverageCount {
	readonly held: number;
	readonly above: number;
	readonly below: number;
	readonly silent: number;
}

/** Replicates are numbered, each with a stream of its own, so that the first few of many can be run again alone. */
export function countCoverage({ name, truth, interval }: CoverageCase, replicates: number): CoverageCount {
	let held = 0;
	let above = 0;
	let below = 0;
	let silent = 0;
	for (let replicate = 0; replicate < replicates; replicate++) {
		const limits = interval(stream(name, 'coverage', replicate), replicate);
		if (!limits) silent++;
		else if (limits.low > truth) above++;
		else if (limits.high < truth) below++;
		else held++;
	}
	return { held, above, below, silent };
}

/** Share of the statements made that hold. */
export const coverageOf = ({ held, above, below }: CoverageCount): number => held / (held + above + below);

/** Number of successes by inversion of the binomial distribution function, one uniform. */
function binomial(trials: number, p: number, u: number): number {
	if (p <= 0) return 0;
	if (p > 0.5) return trials - binomial(trials, 1 - p, u);
	let term = (1 - p) ** trials;
	let sum = term;
	let x = 0;
	while (u > sum && x < trials) {
		term *= ((trials - x) * p) / ((x + 1) * (1 - p));
		x++;
		sum += term;
	}
	return x;
}

interface Units {
	readonly units: number;
	/** A unit's own event rate, from a uniform. */
	readonly own: (u: number) => number;
	/** Mean of `own`. */
	readonly rate: number;
	readonly measured?: number;
}

/** Events and trials of units with their own rates; one unit in twenty loses lock and has fewer trials. */
function drawUnits(
	{ units, own, measured = 24 }: Units,
	source: Stream,
): { events: Float64Array; trials: Float64Array } {
	const events = new Float64Array(units);
	const trials = new Float64Array(units);
	for (let unit = 0; unit < units; unit++) {
		const lost = source.double();
		const x = lost < 0.05 ? Math.ceil(lost * 20 * (measured - 1)) || 1 : measured;
		trials[unit] = x;
		const p = own(source.double());
		events[unit] = p > 0 ? binomial(x, p, source.double()) : 0;
	}
	return { events, trials };
}

const alike = (rate: number) => ({ own: () => rate, rate });
/** A share of the units is affected, with rates spread evenly from 0 to 1. */
const bursts = (share: number) => ({ own: (u: number) => (u < share ? u / share : 0), rate: share / 2 });
/** Rates uᵏ: many small ones, few large. */
const heavyTail = (k: number) => ({ own: (u: number) => u ** k, rate: 1 / (k + 1) });

const rate = (name: string, ordinary: boolean, population: Units): CoverageCase => ({
	name: `rate over units: ${name}`,
	ordinary,
	truth: population.rate,
	interval: (source) => rateInterval(population, source),
});

/** Without events the bound is on units, which is tested as Clopper–Pearson: no statement on the rate. */
function rateInterval(population: Units, source: Stream): Interval | null {
	const { events, trials } = drawUnits(population, source);
	const estimate = ratioEstimate(events, trials);
	return estimate.boundOn === 'trials' ? estimate : null;
}

const rates: readonly CoverageCase[] = [
	rate('50 units alike, 24 affected', true, { units: 50, ...alike(0.03) }),
	rate('200 units alike, 14 affected', true, { units: 200, ...alike(0.003) }),
	rate('200 units alike, 77 affected', true, { units: 200, ...alike(0.02) }),
	rate('1000 units alike, 12 affected', true, { units: 1000, ...alike(0.0005) }),
	rate('1000 units alike, 384 affected', true, { units: 1000, ...alike(0.02) }),
	rate('50 units, 15 in bursts', true, { units: 50, ...bursts(0.3) }),
	rate('200 units, 20 in bursts', true, { units: 200, ...bursts(0.1) }),
	rate('200 units, 60 in bursts of 96 sectors', true, { units: 200, ...bursts(0.3), measured: 96 }),
	rate('1000 units, 20 in bursts', true, { units: 1000, ...bursts(0.02) }),
	rate('200 units, heavy tail, 29 affected', true, { units: 200, ...heavyTail(30) }),
	rate('1000 units, heavy tail, 45 affected', true, { units: 1000, ...heavyTail(100) }),
	rate('50 units, heavy tail, 17 affected, 96 sectors', true, { units: 50, ...heavyTail(12), measured: 96 }),
	rate('200 units alike, 5 affected', false, { units: 200, ...alike(0.001) }),
	rate('1000 units alike, 2 affected', false, { units: 1000, ...alike(0.0001) }),
	rate('200 units, 6 in bursts', false, { units: 200, ...bursts(0.03) }),
	rate('200 units, 3 in bursts', false, { units: 200, ...bursts(0.015) }),
	rate('1000 units, very heavy tail, 2 affected, 96 sectors', false, { units: 1000, ...heavyTail(3000), measured: 96 }),
	rate('1000 units, 3 in bursts of 96 sectors', false, { units: 1000, ...bursts(0.003), measured: 96 }),
];

const share = (ordinary: boolean, n1: number, p1: number, n2: number, p2: number): CoverageCase => ({
	name: `difference of shares: ${p1} of ${n1}, ${p2} of ${n2}`,
	ordinary,
	truth: p1 - p2,
	interval: (source) => shareDifference(binomial(n1, p1, source.double()), n1, binomial(n2, p2, source.double()), n2),
});

const pairedShare = (ordinary: boolean, units: number, both: number, first: number, second: number): CoverageCase => ({
	name: `difference of paired shares: ${units} units, both ${both}, first alone ${first}, second alone ${second}`,
	ordinary,
	truth: first - second,
	interval: (source) => {
		const counts = { both: 0, onlyFirst: 0, onlySecond: 0, neither: 0 };
		for (let unit = 0; unit < units; unit++) {
			const u = source.double();
			if (u < both) counts.both++;
			else if (u < both + first) counts.onlyFirst++;
			else if (u < both + first + second) counts.onlySecond++;
			else counts.neither++;
		}
		return pairedShareDifference(counts);
	},
});

const shares: readonly CoverageCase[] = [
	share(true, 100, 0.7, 80, 0.6),
	share(true, 200, 0.95, 200, 0.9),
	share(true, 1000, 0.98, 1000, 0.97),
	share(false, 50, 0.95, 50, 0.99),
	pairedShare(true, 100, 0.5, 0.2, 0.1),
	pairedShare(true, 400, 0.85, 0.05, 0.03),
	pairedShare(false, 100, 0.95, 0.03, 0.01),
];

const medians: readonly CoverageCase[] = [
	{
		name: 'median of 37 paired differences, skew',
		ordinary: false,
		truth: 0.75 ** 4 - 0.25,
		// u⁴ − (1 − u) rises with u, uniform in [½, 1): its median is the value at u = ¾
		interval: (source) => {
			const first: number[] = [];
			const second: number[] = [];
			for (let unit = 0; unit < 37; unit++) {
				const u = 0.5 + source.double() / 2;
				first.push(u ** 4);
				second.push(1 - u);
			}
			return medianDifference(first, second).interval;
		},
	},
	{
		name: '95 % quantile of 200 units, exponential, 4 % lost',
		ordinary: false,
		// the loss is independent of the figure and ranks last: P(figure ≤ q) = 0.96 (1 − e^−q) = 0.95
		truth: -Math.log(1 - 0.95 / 0.96),
		interval: (source) => {
			const values = Float64Array.from({ length: 200 }, () => {
				const u = source.double();
				return source.double() < 0.04 ? Infinity : -Math.log(1 - u);
			});
			return orderStatisticInterval(values.sort(), 0.95);
		},
	},
];

/** Both choices on the same units: the second's rate is half the first's in every unit. */
const ratioOfRates = (name: string, ordinary: boolean, population: Units): CoverageCase => ({
	name: `ratio of rates: ${name}`,
	ordinary,
	truth: 2,
	interval: (source, replicate) => {
		const measured = population.measured ?? 24;
		const trials = new Float64Array(population.units).fill(measured);
		const first = new Float64Array(population.units);
		const second = new Float64Array(population.units);
		for (let unit = 0; unit < population.units; unit++) {
			const p = population.own(source.double());
			first[unit] = p > 0 ? binomial(measured, p, source.double()) : 0;
			second[unit] = p > 0 ? binomial(measured, p / 2, source.double()) : 0;
		}
		return rateRatio({ events: first, trials }, { events: second, trials }, { resamples: 400, seed: `${replicate}` })
			.interval;
	},
});

const ratios: readonly CoverageCase[] = [
	ratioOfRates('100 units alike, 51 and 30 affected', true, { units: 100, ...alike(0.03) }),
	ratioOfRates('100 units, 30 in bursts', true, { units: 100, ...bursts(0.3) }),
	ratioOfRates('100 units alike, 9 and 5 affected', false, { units: 100, ...alike(0.004) }),
];

const indices: readonly CoverageCase[] = (['first', 'total'] as const).map((kind) => ({
	name: `sensitivity index of Ishigami input 0, ${kind}, 500 rows`,
	ordinary: false,
	truth: kind === 'first' ? 0.313905191 : 0.557588855,
	interval: (_, replicate) => sensitivityIntervals(design(ishigami, 3, [0], 500, `coverage ${replicate}`))[kind],
}));

/** A drive's figure before and after a change of its inputs, with their standard deviations. */
interface DrawnPair {
	readonly draw: (source: Stream) => readonly [before: number, after: number];
	readonly sds: readonly [before: number, after: number];
}

const normalOf = (source: Stream): number => inverseNormal(Math.max(source.double(), 2 ** -60));

/** After is 1.3 times as wide, correlated `rho` with before. */
const normalPair = (rho: number): DrawnPair => ({
	draw: (source) => {
		const common = normalOf(source);
		return [common, 1.3 * (rho * common + Math.sqrt(1 - rho ** 2) * normalOf(source))];
	},
	sds: [1, 1.3],
});

/** The exponential of half a normal figure each: skewness 1.75. */
const lognormalPair = (rho: number): DrawnPair => {
	const { draw } = normalPair(rho);
	const sd = Math.sqrt(Math.exp(0.25) * (Math.exp(0.25) - 1));
	return {
		draw: (source) => {
			const [before, after] = draw(source);
			return [Math.exp(before / 2), 1.3 * Math.exp(after / 2.6)];
		},
		sds: [sd, 1.3 * sd],
	};
};

/** Three parts within their tolerances, uniform; one of them then has `tightened` of its own. */
const partsPair = (tightened: number): DrawnPair => ({
	draw: (source) => {
		const [one, other, third] = [source.double(), source.double(), source.double()];
		return [one + other + third, one + tightened * other + third];
	},
	sds: [Math.sqrt(3 / 12), Math.sqrt((2 + tightened ** 2) / 12)],
});

/** Rows of two drives as of `origins`: so many on either side, of which the first ones are the same where paired. */
const changeOfSpread = (
	name: string,
	{ draw, sds }: DrawnPair,
	[rowsBefore, rowsAfter]: readonly [number, number],
	paired = true,
): CoverageCase => ({
	name: `change of a spread: ${name}`,
	ordinary: false,
	truth: sds[1] - sds[0],
	interval: (source) => {
		const most = paired ? Math.max(rowsBefore, rowsAfter) : rowsBefore + rowsAfter;
		const drives = Array.from({ length: 2 * most }, () => draw(source));
		const before = drives.slice(0, 2 * rowsBefore).map(([value]) => value);
		const after = (paired ? drives.slice(0, 2 * rowsAfter) : drives.slice(2 * rowsBefore)).map(([, value]) => value);
		return spreadChange(rowsOfTwo(before), rowsOfTwo(after), { paired });
	},
});

const spreads: readonly CoverageCase[] = [
	changeOfSpread('normal, 20 rows, correlated 0.8', normalPair(0.8), [20, 20]),
	changeOfSpread('normal, 50 rows, correlated 0', normalPair(0), [50, 50]),
	changeOfSpread('normal, 50 rows, correlated 0.98', normalPair(0.98), [50, 50]),
	changeOfSpread('normal, 300 rows, correlated 0.8', normalPair(0.8), [300, 300]),
	changeOfSpread('normal, 300 and 100 of the same rows, correlated 0.98', normalPair(0.98), [300, 100]),
	changeOfSpread('normal, 300 and 200 other rows', normalPair(0), [300, 200], false),
	changeOfSpread('three uniform parts, one at 0.3, 50 rows', partsPair(0.3), [50, 50]),
	changeOfSpread('three uniform parts, one at 0.3, 300 rows', partsPair(0.3), [300, 300]),
	changeOfSpread('three uniform parts, one at 0.95, 300 rows', partsPair(0.95), [300, 300]),
	changeOfSpread('lognormal, 300 rows, correlated 0.8', lognormalPair(0.8), [300, 300]),
	changeOfSpread('lognormal, 300 rows, correlated 0.98', lognormalPair(0.98), [300, 300]),
	changeOfSpread('lognormal, 20 rows, correlated 0', lognormalPair(0), [20, 20]),
];

/** Looked at after every 50 units up to 2,000; the truth is on the limit, so any interval without it is a false decision. */
const sequences: readonly CoverageCase[] = [0.9, 0.95, 0.99].map((truth) => ({
	name: `confidence sequence, all 40 looks up to 2,000 units, share ${truth}`,
	ordinary: false,
	truth,
	interval: (source) => {
		let passed = 0;
		let widest: Interval = { low: 0, high: 1 };
		for (let look = 1; look <= 40; look++) {
			passed += 50 - binomial(50, 1 - truth, source.double());
			const { low, high } = binomialConfidenceSequence(passed, 50 * look);
			widest = { low: Math.max(widest.low, low), high: Math.min(widest.high, high) };
			if (widest.low > truth || widest.high < truth) return widest;
		}
		return widest;
	},
}));

/** Rates of drives that are lognormal, as where each adds a normal figure of its own to an exponent. */
const unevenRates = (ordinary: boolean, units: number, spread: number): CoverageCase => ({
	name: `mean of ${units} lognormal rates, σ = ${spread}`,
	ordinary,
	truth: Math.exp(spread ** 2 / 2),
	interval: (source) =>
		unevenMean(Float64Array.from({ length: units }, () => Math.exp(spread * normalOf(source)))).interval,
});

/** Failing share of a heavy-tailed margin, through the search, widening and weighted draws that drives go through. */
const failingShare = (limit: KnownLimit, draws: number): CoverageCase => {
	const mixture = failureMixture([{ points: widened(limit, runSearch(limit).found), part: 1 }]);
	return {
		name: `failing share, ${draws} draws: ${limit.name}`,
		ordinary: true,
		truth: limit.probability,
		interval: (_, replicate) => unevenMean(sampleFailures(limit, mixture, draws, `coverage ${replicate}`)).interval,
	};
};

const uneven: readonly CoverageCase[] = [
	unevenRates(true, 600, 1),
	unevenRates(false, 2000, 1.5),
	unevenRates(false, 6000, 2),
	...[1e-5, 1e-8, 1e-11].map((p) => failingShare(paretoProduct([1, 0.4, 0.2], p, 1), 3000)),
	failingShare(equalParetoProduct(2, 1e-8), 3000),
];

/** A normal mean's own interval, which the counting itself is checked on. */
const known: CoverageCase = {
	name: 'control: known 90 % interval of a normal value',
	ordinary: false,
	truth: 0,
	interval: (source) => {
		const z = normalOf(source);
		return { low: z - 1.6448536269514722, high: z + 1.6448536269514722 };
	},
};

export const coverageCases: readonly CoverageCase[] = [
	known,
	...rates,
	...shares,
	...medians,
	...sequences,
	...ratios,
	...indices,
	...uneven,
	...spreads,
];
