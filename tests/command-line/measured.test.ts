import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { choiceNames } from '../../shared/drive/drive.ts';
import type { MeasuredResult } from '../../shared/measured/measured-result.ts';
import { inOwnRevolutions, sectorIntervals } from '../../shared/measured/sector-intervals.ts';
import { pointPlan } from '../../shared/study/point-plan.ts';
import { measured } from '../../src/command-line/measured.ts';
import { textWidth, widthOf } from '../../src/command-line/wrap-text.ts';
import { smallScenario, smallScenarioText } from '../study/small-scenario.ts';
import { commandBench, unreachableHost } from './command-bench.ts';
import { fakeTerminal } from './fake-terminal.ts';

// every run starts threads of its own: slow where the machine is busy with other tests
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const changes = { detection: { compensation: '60 µs' } };
const { host, folder, scenario } = await commandBench(smallScenarioText(changes));

/** A bench's log of half-bus drives, made by the model itself from another seed, in ticks of a timer; `widen` stretches each interval's distance from 60°. */
function logOf(drives: number, widen = 1): string {
	const intervals = 48;
	const compensation = { halfBus: 60e-6, virtualNeutral: 60e-6 };
	const plan = pointPlan(
		smallScenario({ ...changes, trial: { starts: 1, warmup: 6, settle: 6, measured: intervals + 1 } }),
		1,
		{
			seed: 'bench',
			compensation,
		},
	);
	const { intervals: all } = sectorIntervals({ plan, intervals }, 0, drives);
	const rows = ['sector,drive,interval'];
	for (let drive = 0; drive < drives; drive += 1) {
		for (let j = 0; j < intervals; j += 1) {
			const degrees = all[drive * choiceNames.length * intervals + j] as number;
			rows.push(`${j},board ${drive},${Math.round(1e5 * (60 + widen * (degrees - 60)))}`);
		}
	}
	return rows.join('\n');
}

async function run(log: string, ...more: string[]) {
	const path = join(folder, 'log.csv');
	const json = join(folder, 'out.json');
	writeFileSync(path, log);
	const { terminal, kept } = fakeTerminal();
	const argv = [scenario, '--log', path, '--point', 'faster', '--units', '60', '--json', json, ...more];
	const code = await measured(argv, terminal, host);
	return { code, ...kept, result: JSON.parse(readFileSync(json, 'utf8')) as MeasuredResult };
}

test('intervals at constant speed: each revolution is 360°, the spread that of the angle errors’ differences; any unit of time gives the same', () => {
	const plan = pointPlan(smallScenario(), 0, {
		seed: 'x',
		compensation: { halfBus: 6e-5, virtualNeutral: 6e-5 },
		starts: 1,
	});
	const { intervals, failures } = sectorIntervals({ plan, intervals: 6 }, 0, 3);
	expect(failures).toEqual([]);
	for (let at = 0; at < intervals.length; at += 6) {
		expect(intervals.subarray(at, at + 6).reduce((sum, one) => sum + one, 0)).toBeCloseTo(360, 9);
	}
	const ticks = Float64Array.from([10, 11, 12, 13, 14, 12, 20]);
	const degrees = inOwnRevolutions(ticks);
	expect([...degrees]).toEqual([50, 55, 60, 65, 70, 60]);
	const seconds = inOwnRevolutions(ticks.map((tick) => tick * 0.01));
	for (const [i, one] of seconds.entries()) expect(one).toBeCloseTo(degrees[i] as number, 9);
});

test('a log of the model’s own drives is not told from the prediction; stretched by half, it is, by its shape and by its spreads', async () => {
	const own = await run(logOf(8));
	expect({ code: own.code, err: own.err }).toEqual({ code: 0, err: '' });
	expect(own.result.choices.halfBus).toMatchObject({ differs: false, lost: 0, figures: { drives: 60 } });
	expect(own.result).toMatchObject({ intervals: 48, log: { figures: { drives: 8 } }, provenance: { partial: false } });
	expect(own.out.replaceAll(/\s+/g, ' ')).toMatch(
		/Half-bus: no difference is shown \(p of both tests above 0\.025; spread within a drive .* would not be noticed/,
	);
	for (const line of own.out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);

	const wide = await run(logOf(8, 1.5));
	const { halfBus } = wide.result.choices;
	expect(halfBus?.differs).toBe(true);
	expect(halfBus?.spreads.p).toBeLessThan(0.001);
	expect(wide.result.log.figures.spread / own.result.log.figures.spread).toBeCloseTo(1.5, 3);
	expect(wide.out.replaceAll(/\s+/g, ' ')).toMatch(
		/Half-bus: measured and predicted intervals differ, by their distribution, largest difference of shares [\d.]+ %, and by how widely each drive spreads \(spread within/,
	);
	// the same command, the same figures, for any number of workers
	expect((await run(logOf(8, 1.5), '--workers', '1')).out).toBe(wide.out);
});

test('no log, a log that is not there, and one without its columns are bad input: 2, with what to do', async () => {
	const { terminal, kept } = fakeTerminal();
	const bad = join(folder, 'bad.csv');
	writeFileSync(bad, 'unit,period\n1,2\n');
	const codes = [
		await measured([scenario], terminal, unreachableHost),
		await measured([scenario, '--log', join(folder, 'nowhere.csv')], terminal, unreachableHost),
		await measured([scenario, '--log', bad, '--point', 'slow'], terminal, unreachableHost),
	];
	expect(codes).toEqual([2, 2, 2]);
	const words = kept.err.replaceAll(/\s+/g, ' ');
	expect(words).toContain('--log is missing: name the file with the measured intervals');
	expect(words).toContain('there is no such file');
	expect(words).toMatch(/bad.csv, line 1.*must name a column “drive”/);
	expect(words).toContain('is no operating point of the scenario');
});
