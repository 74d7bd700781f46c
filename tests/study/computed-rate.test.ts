import { expect, test } from 'vitest';
import { stream } from '../../shared/sampling/stream.ts';
import { computedRate } from '../../shared/study/computed-rate.ts';
import { nominalCompensation } from '../../shared/study/nominal-delay.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { smallScenario } from './small-scenario.ts';

const options = (units: number) => ({
	units: Array.from({ length: units }, (_, i) => i),
	sectorsPerHour: 1e6,
	level: 0.95,
});
const sectors = (units: number) => new Float64Array(units).fill(100);

test('one drive of 200 that carries all of the rate leaves no interval, and is named', () => {
	const chances = new Float64Array(200).fill(1e-12);
	chances[17] = 1e-3;
	const { rate, perHour, interval, effective, largestShare, largestUnit } = computedRate(
		chances,
		sectors(200),
		options(200),
	);
	expect(rate).toBeCloseTo(1e-3 / 20_000, 12);
	expect(perHour).toBeCloseTo(0.05, 6);
	expect(interval).toBeNull();
	expect(effective).toBeCloseTo(1, 6);
	expect(largestShare).toBeCloseTo(1, 6);
	expect(largestUnit).toBe(17);
});

test('with rates of all drives alike in size the interval holds the true mean in 93 to 97 of 100 studies, at 1e−210 too', () => {
	for (const size of [1, 1e-210]) {
		let held = 0;
		const studies = 1000;
		for (let study = 0; study < studies; study++) {
			const next = stream('computed', 'test', study);
			const chances = Float64Array.from({ length: 200 }, () => 2e-3 * size * next.double());
			const { interval } = computedRate(chances, sectors(200), options(200));
			if (interval && interval[0] <= 1e-5 * size && 1e-5 * size <= interval[1]) held++;
		}
		// standard error of 95 % over 1000 studies: 0.7 %
		expect(held / studies).toBeGreaterThan(0.93);
		expect(held / studies).toBeLessThan(0.97);
	}
});

test('the gain is the ratio of the two variances: counting Poisson events of these rates spreads so much more', () => {
	const next = stream('gain', 'test');
	const units = 20_000;
	const chances = Float64Array.from({ length: units }, () => 0.04 * next.double());
	const { gain } = computedRate(chances, sectors(units), options(units));
	// uniform on 0 to a: mean a/2, variance a²/12, so 1 + 6/a = 151
	expect(gain).toBeGreaterThan(151 * 0.97);
	expect(gain).toBeLessThan(151 * 1.03);
});

test('without any chance there is a rate of 0 and no claim about its size', () => {
	const { rate, interval, gain, largestUnit } = computedRate(new Float64Array(5), sectors(5), options(5));
	expect({ rate, interval, gain, largestUnit }).toEqual({ rate: 0, interval: null, gain: null, largestUnit: null });
});

test('where counting works, in 60 drives with heavy noise, counted and computed rates agree within 4 standard errors', () => {
	const scenario = smallScenario({ noise: { sigma: '0.5 V' }, detection: { majorityWindow: 1, majorityVotes: 1 } });
	const plan = { scenario, seed: 'agree', compensation: nominalCompensation(scenario).compensation };
	const { columns } = runShard(plan, 0, 60);
	const total = (values: ArrayLike<number>): number => Array.from(values).reduce((sum, value) => sum + value, 0);
	for (const kind of ['early', 'late', 'missed'] as const) {
		const counted = total(columns[kind]);
		const computed = total(columns[`${kind}Chance`]);
		expect(Math.abs(counted - computed), kind).toBeLessThan(4 * Math.sqrt(computed) + 1);
	}
	expect(total(columns.early)).toBeGreaterThan(50);
});
