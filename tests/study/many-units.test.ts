import { beforeAll, expect, test } from 'vitest';
import type { RunRecord } from '../../shared/drive/drive.ts';
import { emptyStudy, mergeShard, type StudyColumns, studyFor } from '../../shared/study/merge.ts';
import { resultDigest } from '../../shared/study/result-digest.ts';
import { runShard, type ShardResult } from '../../shared/study/run-shard.ts';
import { shardBytes, shardFromBytes } from '../../shared/study/shard-bytes.ts';
import { summarise } from '../../shared/study/summarise.ts';
import { smallScenario } from './small-scenario.ts';

/*
 * Many units in little time: their drives are drawn, but their runs are made up,
 * with errors whose distribution over units is known exactly.
 */

const units = 20_000;
const scenario = smallScenario({
	points: [{ name: 'fast', speed: 6000, torque: 0.05 }],
	trial: { starts: 1, warmup: 6, settle: 0, measured: 6 },
});
const plan = { scenario, seed: 'many', compensation: { halfBus: 0, virtualNeutral: 0 } };
const zeros = new Float64Array(6);

/** All six errors of a run alike: −10° to 10° in equal steps over units, in a shuffled order (7919 has no factor in common with their number). */
const errorOf = (unit: number): number => -10 + (20 * ((unit * 7919) % units)) / units;

const madeUp = (error: number): RunRecord => ({
	measured: 6,
	errors: new Float64Array(6).fill(error),
	crossings: zeros,
	torques: zeros,
	causes: new Uint8Array(6),
	duties: zeros,
	meanTorque: 0.05,
	torqueNotReached: false,
	lost: false,
	chances: { early: zeros, late: zeros, missed: zeros },
});

function shardOf(from: number, to: number): ShardResult {
	let unit = from - 1;
	return runShard(plan, from, to, {
		simulate() {
			unit += 1;
			return { halfBus: madeUp(errorOf(unit)), virtualNeutral: madeUp(errorOf(unit) + 1) };
		},
	});
}

let shards: readonly ShardResult[];
let study: StudyColumns;
beforeAll(() => {
	shards = Array.from({ length: 8 }, (_, i) => shardOf((i * units) / 8, ((i + 1) * units) / 8));
	study = studyFor(scenario, units);
	for (const shard of shards) mergeShard(study, shard);
});

test('a unit of one point takes 289 bytes, so that a million of them take 289 MB', () => {
	const bytes = Object.values(study.columns).reduce((sum, { byteLength }) => sum + byteLength, study.states.byteLength);
	expect(bytes / units).toBe(289);
});

test('counts up to 255, 65,535 and beyond are kept in 1, 2 and 4 bytes', () => {
	const widths = [42, 43, 10_922, 10_923].map((measured) => {
		const { columns } = studyFor({ ...scenario, values: { ...scenario.values, 'trial.measured': 6 * measured } }, 1);
		return columns.sectors.BYTES_PER_ELEMENT;
	});
	expect(widths).toEqual([1, 2, 2, 4]);
});

test('shards in any order, and counts kept wide, have the same digest', async () => {
	const digest = await resultDigest(study);
	const wide = emptyStudy(units, 1);
	for (const i of [3, 0, 7, 5, 1, 6, 2, 4]) mergeShard(wide, shards[i] as ShardResult);
	expect(wide.columns.sectors.BYTES_PER_ELEMENT).toBe(4);
	expect(await resultDigest(wide)).toBe(digest);

	const read = studyFor(scenario, units);
	for (const shard of shards) mergeShard(read, shardFromBytes(shardBytes(shard), 1, shard));
	expect(await resultDigest(read)).toBe(digest);
});

test('quantiles over 20,000 drives are off by at most one rank, those of all commutations by at most 0.01°', () => {
	const { points } = summarise(plan, study, { scenarioDigest: '', resultDigest: 'full', partial: false, warnings: [] });
	const { unitError, angleError, unitFigures, units: counted } = points[0]?.choices.halfBus ?? expect.fail();
	expect(counted).toBe(units);
	const sizes = Float64Array.from({ length: units }, (_, unit) => Math.abs(errorOf(unit))).sort();
	const rankOff = (value: number, share: number): number => {
		const below = sizes.findLastIndex((size) => size <= value) + 1;
		return Math.abs(below - share * units);
	};
	expect(rankOff(unitError.median, 0.5)).toBeLessThanOrEqual(1);
	expect(rankOff(unitError.q95, 0.95)).toBeLessThanOrEqual(1);
	for (const { share, value } of unitFigures.rms.quantiles)
		expect(rankOff(value + 1e-9, share), `${share}`).toBeLessThanOrEqual(2);
	for (const [share, value] of Object.entries(angleError.quantiles)) {
		expect(Math.abs(value - (-10 + 20 * Number(share)))).toBeLessThanOrEqual(0.01);
	}
});
