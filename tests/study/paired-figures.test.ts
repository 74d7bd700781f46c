import { expect, test } from 'vitest';
import { stream } from '../../shared/sampling/stream.ts';
import { pairedFigures } from '../../shared/study/paired-figures.ts';

const of = (...values: number[]) => Float64Array.from(values);

test('half-bus smaller in 10 of 10 drives is better, with p = 2 · 2⁻¹⁰ = 0.00195', () => {
	const halfBus = of(1, 2, 3, 4, 5, 6, 7, 8, 9, 10);
	const paired = pairedFigures(
		halfBus,
		halfBus.map((value) => value + 0.5),
		0.95,
	);
	expect(paired).toMatchObject({ units: 10, medianDifference: -0.5, better: 'halfBus', ties: 0 });
	expect(paired.p).toBeCloseTo(2 / 1024, 12);
	expect(paired.smaller).toEqual({ halfBus: 10, virtualNeutral: 0 });
});

test('5 of 5 drives do not show it at 95 %: p = 0.0625', () => {
	const paired = pairedFigures(of(2, 2, 2, 2, 2), of(1, 1, 1, 1, 1), 0.95);
	expect(paired.p).toBeCloseTo(0.0625, 12);
	expect(paired.better).toBe('not shown');
});

test('losing drives never flatters: a choice that loses 8 of 8 is worse, however good the other', () => {
	const lost = of(...new Array<number>(8).fill(Infinity));
	const paired = pairedFigures(lost, of(1, 2, 3, 4, 5, 6, 7, 8), 0.95);
	expect(paired.better).toBe('virtualNeutral');
	expect(paired.medianDifference).toBe(Infinity);
	// eight pairs do bound the median: lost at either end, which is not too few
	expect(paired.interval).toEqual([Infinity, Infinity]);
	expect(pairedFigures(of(Infinity, Infinity), of(1, 2), 0.95).interval).toBeNull();
});

test('two lost drives are a tie, and without pairs nothing is claimed', () => {
	expect(pairedFigures(of(Infinity), of(Infinity), 0.95)).toMatchObject({ ties: 1, p: 1, better: 'not shown' });
	expect(pairedFigures(of(), of(), 0.95)).toMatchObject({ units: 0, medianDifference: null, interval: null, p: 1 });
});

test('what the sign test shows the median difference never contradicts: 500 made-up lists with ties and losses', () => {
	const next = stream('pairs', 'test');
	const one = (): number => [1, 2, 3, Number.POSITIVE_INFINITY][Math.floor(4 * next.double())] as number;
	let shown = 0;
	for (let n = 0; n < 500; n += 1) {
		const halfBus = Float64Array.from({ length: 1 + (n % 40) }, one);
		const virtualNeutral = halfBus.map((error) => (next.double() < 0.4 ? error : one()));
		const { better, medianDifference } = pairedFigures(halfBus, virtualNeutral, 0.5);
		if (better === 'not shown' || medianDifference === null) continue;
		shown += 1;
		expect(better === 'halfBus' ? medianDifference <= 0 : medianDifference >= 0).toBe(true);
	}
	expect(shown).toBeGreaterThan(50);
});
