import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { emptyStudy, failUnits, mergeShard } from '../../shared/study/merge.ts';
import { resultDigest } from '../../shared/study/result-digest.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { studySentence } from '../../shared/study/sentence.ts';
import { summarise } from '../../shared/study/summarise.ts';
import { version } from '../../shared/study/version.ts';
import { smallScenario } from './small-scenario.ts';

const scenario = smallScenario();
const plan = { scenario, seed: 'sum', compensation: { halfBus: 75e-6, virtualNeutral: 75e-6 } };
const surroundings = { scenarioDigest: 's', resultDigest: 'r', partial: false, warnings: [] };
const shards = [runShard(plan, 0, 4), runShard(plan, 4, 5), runShard(plan, 5, 12)];

const merged = (order: readonly number[]) => {
	const study = emptyStudy(12, scenario.points.length);
	for (const index of order) mergeShard(study, shards[index] as (typeof shards)[0]);
	return study;
};

test('shards merged in any order give the same result and digest', async () => {
	const [one, other] = [merged([0, 1, 2]), merged([2, 0, 1])];
	expect(await resultDigest(other)).toBe(await resultDigest(one));
	expect(summarise(plan, other, surroundings)).toEqual(summarise(plan, one, surroundings));
});

test('one bit in one column changes the digest', async () => {
	const changed = merged([0, 1, 2]);
	const before = await resultDigest(changed);
	changed.columns.errorSquares[11] = (changed.columns.errorSquares[11] ?? 0) * (1 + 2 ** -52);
	expect(await resultDigest(changed)).not.toBe(before);
});

test('12 drives asked, 7 finished, 2 failed: counted, named in order, and the figures are those of the 7', () => {
	const study = merged([2]);
	failUnits(study, 3, 4, 'the worker failed');
	failUnits(study, 0, 1, 'the worker failed');
	const result = summarise(plan, study, { ...surroundings, partial: true });
	expect(result.provenance.units).toEqual({ asked: 12, finished: 7, failed: 2 });
	expect(result.provenance.failures.map(({ unit }) => unit)).toEqual([0, 3]);
	expect(result.provenance.partial).toBe(true);
	for (const { choices, paired } of result.points) {
		expect(choices.halfBus.units).toBe(7);
		expect(choices.halfBus.sectors).toBe(7 * 24);
		expect(choices.halfBus.runs).toBe(14);
		expect(choices.halfBus.histogram.counts.reduce((sum, count) => sum + count, 0)).toBe(7 * 24);
		expect(paired.units).toBe(7);
		// drive by drive, of the same figure as the median: nearer to it than a bin
		const { start, step, counts } = paired.differences ?? expect.unreachable();
		expect(counts.reduce((sum, count) => sum + count, 0)).toBe(7);
		const middle = counts.flatMap((count, bin) => new Array<number>(count).fill(bin))[3] as number;
		expect(Math.abs(start + (middle + 0.5) * step - (paired.medianDifference ?? Number.NaN))).toBeLessThan(step);
	}
	expect(studySentence(result)).toContain('2 of 12 drives could not be simulated');
});

test('a study without any finished drive says so', () => {
	const study = emptyStudy(3, scenario.points.length);
	failUnits(study, 0, 3, 'no worker could be started');
	const result = summarise(plan, study, surroundings);
	expect(studySentence(result)).toBe('None of the 3 drives was finished: nothing is shown.');
	expect(result.points[0]?.paired.better).toBe('not shown');
});

test('events an hour count six sectors a turn: 4 pole pairs at 6000 rpm make 8 640 000 sectors an hour', () => {
	// common practice: sectors per second = 6 · p · n/60
	const study = merged([0, 1, 2]);
	study.columns.early[0] = 1;
	const [fast] = summarise(plan, study, surroundings).points;
	const early = fast?.choices.halfBus.rates.early;
	expect(early?.perHour).toBeCloseTo((early?.rate ?? 0) * 8_640_000, 6);
});

test('the version is that of package.json', () => {
	const { version: packaged } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
	expect(version).toBe(packaged);
});
