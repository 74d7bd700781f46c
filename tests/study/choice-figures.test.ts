import { expect, test } from 'vitest';
import { angleBin, angleBins } from '../../shared/study/angle-histogram.ts';
import { choiceFigures } from '../../shared/study/choice-figures.ts';
import { emptyStudy, type StudyColumns } from '../../shared/study/merge.ts';

/** Eight units at one point, half-bus only, with the columns given. */
function study(columns: Readonly<Record<string, readonly number[]>>): StudyColumns {
	const empty = emptyStudy(8, 1);
	for (const [name, values] of Object.entries(columns)) {
		values.forEach((value, unit) => {
			empty.columns[name as 'early'][unit * 2] = value;
		});
	}
	return empty;
}
const place = (of: StudyColumns) => ({
	study: of,
	finished: [0, 1, 2, 3, 4, 5, 6, 7],
	point: 0,
	choice: 0,
	sectorsPerHour: 4_320_000,
	level: 0.95,
});

const events = [0, 1, 2, 0, 3, 1, 0, 0];
const sectors = [10, 12, 9, 11, 10, 8, 12, 10];

test('7 events in 82 sectors of eight units make a rate of 0.08537 whose interval allows for clustering', () => {
	// Cochran, Sampling Techniques, ch. 6 (formula from memory); the figure recomputed: 0.0853658537
	const { rates } = choiceFigures(place(study({ early: events, sectors })));
	expect(rates.early.count).toBe(7);
	expect(rates.early.rate).toBeCloseTo(0.0853658537, 10);
	expect(rates.early.boundOn).toBe('sectors');
	expect(rates.early.low).toBeLessThan(0.0853658537);
	// wider than independent sectors would have it: the binomial standard error is 0.0308573675
	expect(rates.early.high - rates.early.low).toBeGreaterThan(2 * 1.96 * 0.0308573675);
	// six sectors a turn at 200 turns a second: 4 320 000 an hour
	expect(rates.early.perHour).toBeCloseTo(0.0853658537 * 4_320_000, 2);
});

test('without an event among 8 units, the 95 % bound is on units: 1 − 0.05^(1/8) = 31.2 %', () => {
	// the exact zero-event bound 1 − α^(1/n), closed form
	const { rates } = choiceFigures(place(study({ sectors })));
	expect(rates.late).toMatchObject({ count: 0, rate: 0, low: 0, perHour: 0, boundOn: 'units' });
	expect(rates.late.high).toBeCloseTo(1 - 0.05 ** (1 / 8), 10);
});

test('mean and standard deviation are those of all errors pooled', () => {
	// errors 1, 2, 3 in one unit and 6 in another: mean 3, sum of squares 50, variance (50 − 4·9)/3
	const figures = choiceFigures({
		...place(
			study({ sectors: [3, 1], errorSum: [6, 6], errorSquares: [14, 36], lowestError: [1, 6], highestError: [3, 6] }),
		),
		finished: [0, 1],
	});
	expect(figures.angleError.mean).toBe(3);
	expect(figures.angleError.sd).toBeCloseTo(Math.sqrt(14 / 3), 12);
	expect(figures.angleError.maxAbs).toBe(6);
});

test('quantiles of 1000 errors spread evenly from −5° to +5° are within a bin of their place', () => {
	const even = study({ sectors: [1000], lowestError: [-4.995], highestError: [4.995] });
	for (let i = 0; i < 1000; i += 1) {
		const bin = angleBin(-4.995 + i * 0.01);
		even.histograms[bin] = (even.histograms[bin] ?? 0) + 1;
	}
	const { quantiles } = choiceFigures({ ...place(even), finished: [0] }).angleError;
	expect(Object.keys(quantiles)).toEqual(['0.005', '0.025', '0.5', '0.975', '0.995']);
	for (const [share, value] of Object.entries(quantiles)) {
		expect(Math.abs(value - (10 * Number(share) - 5))).toBeLessThan(2 * angleBins.step);
	}
});

test('errors beyond ±60°, as lost runs end with, are quoted between the edge and the exact extreme', () => {
	const lost = study({ sectors: [4], lowestError: [-84], highestError: [-82] });
	lost.histograms[0] = 4;
	const { quantiles } = choiceFigures({ ...place(lost), finished: [0] }).angleError;
	expect(quantiles['0.5']).toBe(-83);
	const late = study({ sectors: [4], lowestError: [-5], highestError: [80] });
	late.histograms[angleBin(-5)] = 1;
	late.histograms[angleBins.count - 1] = 3;
	const { '0.995': high = 0, '0.5': middle = 0 } = choiceFigures({ ...place(late), finished: [0] }).angleError
		.quantiles;
	// 0.02 of 3 below the top, from 59.99° to 80°
	expect(high).toBeCloseTo(80 - (0.02 / 3) * 20.01, 6);
	expect(middle).toBeGreaterThan(59.99);
});

test('a lost unit ranks worse than any error: one of two infinite makes the median infinite', () => {
	const { unitError } = choiceFigures({ ...place(study({ unitError: [2, Infinity] })), finished: [0, 1] });
	expect(unitError.median).toBe(Infinity);
	expect(unitError.medianInterval).toBeNull();
});

test('the median of eight units has order-statistic limits: the first and the last (99.2 %)', () => {
	// David and Nagaraja, Order Statistics, 7.1: ranks 1 and 8 enclose the median with 1 − 2/2⁸
	const { unitError } = choiceFigures(place(study({ unitError: [5, 1, 8, 3, 2, 7, 6, 4] })));
	expect(unitError.median).toBe(4.5);
	expect(unitError.medianInterval).toEqual([1, 8]);
	expect(unitError.q95Interval).toBeNull();
});

test('units that lost lock before a sector was measured bound nothing: none of 8 leaves 31.2 %, 3 without sectors 45.1 %', () => {
	// Clopper–Pearson, 0 of n: 1 − 0.05^(1/n) − recomputed
	const high = (sectors: readonly number[]) => choiceFigures(place(study({ sectors }))).rates.early.high;
	expect(high(Array(8).fill(24))).toBeCloseTo(1 - 0.05 ** (1 / 8), 9);
	expect(high([...Array(5).fill(24), 0, 0, 0])).toBeCloseTo(1 - 0.05 ** (1 / 5), 9);
	expect(high(Array(8).fill(0))).toBe(1);
});

test('with no finished unit nothing is claimed: no sectors, figures that are no numbers, a bound of 100 %', () => {
	const figures = choiceFigures({ ...place(emptyStudy(8, 1)), finished: [] });
	expect(figures.units).toBe(0);
	expect(figures.angleError.mean).toBeNaN();
	expect(figures.angleError.maxAbs).toBeNaN();
	expect(figures.rates.early.high).toBe(1);
});

test('the largest error is the larger of the earliest and the latest: −5° of −5° and +2°', () => {
	const early = study({ sectors: [2], lowestError: [-5], highestError: [2] });
	expect(choiceFigures({ ...place(early), finished: [0] }).angleError.maxAbs).toBe(5);
});

test('without an event the bound is on the units that were looked at: a drive that lost lock at once is none of them', () => {
	const { rates } = choiceFigures(place(study({ sectors: [10, 12, 9, 0, 10, 8, 12, 10] })));
	expect(rates.early.high).toBeCloseTo(1 - 0.05 ** (1 / 7), 10);
});
