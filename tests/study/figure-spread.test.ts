import { expect, test } from 'vitest';
import { emptyColumns } from '../../shared/study/columns.ts';
import { figureSpread } from '../../shared/study/figure-spread.ts';
import { unitFigureNames, unitFigureValues } from '../../shared/study/unit-figures.ts';

test("a unit's figures are those of its sectors: errors 1, 2, 3, −4, −5, −6° of kinds 0 to 5", () => {
	const columns = emptyColumns(2);
	const errors = [1, 2, 3, -4, -5, -6];
	errors.forEach((error, kind) => {
		columns[`sectors${kind}` as 'sectors0'][1] = 1;
		columns[`errorSum${kind}` as 'errorSum0'][1] = error;
	});
	columns.sectors[1] = 6;
	columns.errorSum[1] = -9;
	columns.errorSquares[1] = 91;
	columns.unitError[1] = 5.9;
	const values = Object.fromEntries(unitFigureNames.map((name) => [name, unitFigureValues(columns, [1], name)[0]]));
	expect(values.error95).toBe(5.9);
	expect(values.mean).toBe(-1.5);
	expect(values.rms).toBeCloseTo(Math.sqrt(91 / 6), 12);
	expect(values.worstSector).toBe(6);
	// Σx² − n·mean² = 91 − 13.5
	expect(values.spread).toBeCloseTo(Math.sqrt(77.5 / 5), 12);
	// the open phase's EMF rises in kinds 1, 3, 5
	expect(values.risingFalling).toBeCloseTo((2 - 4 - 6) / 3 - (1 + 3 - 5) / 3, 12);
	columns.lost[1] = 1;
	for (const name of unitFigureNames) expect(unitFigureValues(columns, [1], name)[0], name).toBe(Infinity);
});

test('of 1 to 1000, quantile limits are the order statistics of David and Nagaraja and 95 % lie in 25 … 975', () => {
	const values = Float64Array.from({ length: 1000 }, (_, i) => ((i * 7) % 1000) + 1);
	const { mean, sd, quantiles, symmetric, shortest, lost } = figureSpread(values, false, 0.95);
	expect(mean).toBeCloseTo(500.5, 9);
	expect(lost).toBe(0);
	expect(sd).toBeCloseTo(Math.sqrt((1000 * 1001) / 12), 9);
	// ranks of the median of 1000: 469 and 532 (normal approximation 500.5 ∓ 1.96·15.8 from the binomial, recomputed)
	expect(quantiles[1]).toEqual({ share: 0.5, value: 500.5, interval: [469, 532] });
	// JCGM 101, 7.7.1 with M = 1000: q = 950, r = 25, interval y(25) to y(975)
	expect(symmetric).toEqual([25, 975]);
	expect((shortest?.[1] ?? 0) - (shortest?.[0] ?? 0)).toBe(950);
});

test('ten lost drives of a hundred push the upper limits to worse than any and leave no mean', () => {
	const values = Float64Array.from({ length: 100 }, (_, i) => (i < 10 ? Infinity : i / 10));
	const { mean, sd, lost, quantiles, symmetric } = figureSpread(values, false, 0.95);
	expect({ mean, sd, lost }).toEqual({ mean: null, sd: null, lost: 10 });
	expect(quantiles[2]?.value).toBe(Infinity);
	expect(symmetric?.[1]).toBe(Infinity);
	expect(quantiles[1]?.value).toBeLessThan(10);
});

test('of a signed figure lost drives stand beyond either end', () => {
	const values = Float64Array.from({ length: 100 }, (_, i) => (i < 10 ? Infinity : (i - 55) / 10));
	const { symmetric, quantiles } = figureSpread(values, true, 0.95);
	expect(symmetric).toEqual([-Infinity, Infinity]);
	expect([quantiles[0]?.value, quantiles[2]?.value]).toEqual([-Infinity, Infinity]);
});

test('without units nothing is claimed', () => {
	expect(figureSpread(new Float64Array(), false, 0.95)).toMatchObject({
		units: 0,
		sd: null,
		symmetric: null,
		shortest: null,
	});
});

test('a drive with a single sector spreads by nothing', () => {
	const columns = emptyColumns(1);
	columns.sectors[0] = 1;
	columns.errorSum[0] = 3;
	columns.errorSquares[0] = 9;
	expect(unitFigureValues(columns, [0], 'spread')[0]).toBe(0);
});
