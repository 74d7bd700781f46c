import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import type { WeakestResult } from '../../shared/rare/weakest-result.ts';
import { readBoards } from '../../shared/scenario/read-boards.ts';
import { runBoard } from '../../src/command-line/board-run.ts';
import { weakest } from '../../src/command-line/weakest.ts';
import { textWidth, widthOf } from '../../src/command-line/wrap-text.ts';
import type { WorkerHost } from '../../src/host/worker-handle.ts';
import { fewPartsText } from '../rare/drive-space.ts';
import { smallScenarioText } from '../study/small-scenario.ts';
import { commandBench, unreachableHost } from './command-bench.ts';
import { fakeTerminal } from './fake-terminal.ts';

// every run starts threads of its own: slow where the machine is busy with other tests
vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

const { host, folder, scenario } = await commandBench(smallScenarioText(fewPartsText));

async function run(argv: readonly string[], from: WorkerHost = host) {
	const { terminal, kept } = fakeTerminal();
	const code = await weakest(argv, terminal, from);
	return { code, ...kept };
}

test('the likeliest failing drive of each choice is found, fails with 8 or more of 20 sets of starts and noise, and is a board that can be run', async () => {
	const json = join(folder, 'out.json');
	const { code, out, err } = await run([scenario, '--units', '400', '--seed', 'demo', '--json', json]);
	expect({ code, err }).toEqual({ code: 0, err: '' });
	for (const line of out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
	const result = JSON.parse(readFileSync(json, 'utf8')) as WeakestResult;
	expect(result.provenance).toMatchObject({
		seed: 'demo',
		partial: false,
		scenarioDigest: expect.stringMatching(/^[0-9a-f]{64}$/),
		resultDigest: expect.stringMatching(/^[0-9a-f]{64}$/),
	});
	expect(result.provenance.units.asked).toBe(result.search.drives + 400);
	for (const choice of [result.choices.halfBus, result.choices.virtualNeutral]) {
		expect(choice.outcome).toBe('found');
		const { drive, distances, failingShare } = choice;
		if (!drive) return expect.unreachable('a drive was found');
		// the parts that are left out make it a little less likely
		expect(drive.distance).toBeGreaterThanOrEqual(0.9 * (distances[0] ?? 9));
		expect([...distances].sort((one, other) => one - other)).toEqual(distances);
		expect(drive.confirmed.of).toBe(20);
		expect(drive.confirmed.failed).toBeGreaterThanOrEqual(8);
		expect(drive.parts.length).toBeGreaterThan(1);
		expect(drive.parts.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
		for (const { share, value, nominal, deviation, isRelative } of drive.parts) {
			expect(share).toBeGreaterThan(0);
			expect(value).toBeCloseTo(isRelative ? nominal * (1 + deviation) : nominal + deviation, 6);
		}
		expect(failingShare.draws).toBeGreaterThan(10);
		if (failingShare.effective < 100) expect(failingShare.interval).toBeNull();
		else expect(failingShare.interval?.low).toBeLessThan(failingShare.value);
		const reading = readBoards(JSON.stringify({ cases: [drive.board] }));
		if ('problems' in reading) return expect.unreachable(JSON.stringify(reading.problems));
		expect(runBoard(reading.boards[0] as (typeof reading.boards)[number], false)).toHaveProperty('halfBus.errors');
	}
	// a mean of 400 weights of at most 1/0.15
	expect(Math.abs(result.draws.meanWeight - 1)).toBeLessThan(0.5);
	for (const words of ['Gaussian', 'uniform tolerance ends at its limits', result.provenance.resultDigest, 'dangerous'])
		expect(out.replaceAll(/\s+/g, ' ')).toContain(words);
});

test('one and three workers print the same digits', async () => {
	const short = join(folder, 'short.json');
	const trial = { starts: 1, warmup: 6, settle: 0, measured: 6 };
	writeFileSync(short, smallScenarioText({ ...fewPartsText, trial, requirement: { angleLimit: '2°' } }));
	const one = await run([short, '--units', '100', '--workers', '1']);
	const three = await run([short, '--units', '100', '--workers', '3']);
	expect(one.out).toContain('The likeliest failing drive found lies');
	expect(three).toEqual(one);
});

test('where nothing can fail it says so, and where the middle fails already, too', async () => {
	const easy = join(folder, 'easy.json');
	writeFileSync(
		easy,
		smallScenarioText({
			...fewPartsText,
			noise: { sigma: 0 },
			requirement: { angleLimit: '50°', crossingsPerHour: 1e9 },
		}),
	);
	// nothing fails, but 100 ordinary draws leave 7 · ln 40/(3 · 99) = 8.7 %, where 5 % may
	const none = await run([easy, '--units', '100', '--require']);
	expect(none.code).toBe(1);
	expect(none.out).toContain('between 0 % and 8.7 % of drives fail');
	expect(none.out).toContain('Nothing failed as far as was searched');
	const hard = join(folder, 'hard.json');
	writeFileSync(hard, smallScenarioText({ ...fewPartsText, requirement: { angleLimit: '0.1°' } }));
	const middle = await run([hard, '--units', '100', '--require', '--choice', 'half-bus']);
	expect(middle.code).toBe(1);
	expect(middle.out.replaceAll(/\s+/g, ' ')).toMatch(/The requirement fails: at least \d/);
	expect(middle.out.replaceAll(/\s+/g, ' ')).toMatch(
		/in the middle of its tolerance fails already: its angle error comes to \d+\.\d+° at \w+\. It does so in \d+ of 20 runs/,
	);
	// no parts to solder: the middle is the drive
	expect(middle.out).not.toContain('Part, at 25 °C');
	expect(middle.out).not.toContain('standard deviations from the middle');
});

test('bad options and a bad scenario are all listed before anything runs: 2', async () => {
	const bad = join(folder, 'bad.json');
	writeFileSync(bad, smallScenarioText({ motor: { polePairs: 0.5 } }));
	const { code, out, err } = await run([bad, '--units', '3', '--sead', 'x'], unreachableHost);
	expect({ code, out }).toEqual({ code: 2, out: '' });
	for (const words of ['--units', '--seed', 'motor.polePairs']) expect(err).toContain(words);
});

test('interrupted, it ends with 130 and says that the result is partial', async () => {
	const { terminal, kept, interrupt } = fakeTerminal(true);
	const running = weakest([scenario, '--units', '1000000'], terminal, host);
	while (!/\d drives, at most/.test(kept.err)) await new Promise((resolve) => setTimeout(resolve, 20));
	interrupt();
	expect(await running).toBe(130);
	expect(kept.out).toContain('PARTIAL RESULT');
});
