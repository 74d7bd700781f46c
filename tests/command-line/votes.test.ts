import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import type { VotesResult } from '../../shared/votes/votes-result.ts';
import { votes } from '../../src/command-line/votes.ts';
import { textWidth, widthOf } from '../../src/command-line/wrap-text.ts';
import type { WorkerHost } from '../../src/host/worker-handle.ts';
import { smallScenarioText } from '../study/small-scenario.ts';
import { commandBench, unreachableHost } from './command-bench.ts';
import { fakeTerminal } from './fake-terminal.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

const { host, folder, scenario } = await commandBench(smallScenarioText({ noise: { sigma: '150 mV' } }));

async function run(argv: readonly string[], from: WorkerHost = host) {
	const { terminal, kept } = fakeTerminal();
	const code = await votes(argv, terminal, from);
	return { code, ...kept, problems: kept.err.replaceAll(/\s+/g, ' ') };
}
const filters = [scenario, '--filters', '1/1, 2 of 3', '--noise', '300 mV'];
const asked = [...filters, '--units', '6'];

test('ends with 0, prints every filter and noise asked for in 80 columns, and writes JSON with its provenance', async () => {
	const json = join(folder, 'votes.json');
	const { code, out, err } = await run([...asked, '--json', json]);
	expect({ code, err }).toEqual({ code: 0, err: '' });
	for (const line of out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
	const result = JSON.parse(readFileSync(json, 'utf8')) as VotesResult;
	expect(result).toMatchObject({
		format: 'anglespread-votes',
		formatVersion: 2,
		judged: 6,
		sigmas: [0.15, 0.3],
		provenance: {
			seed: 'demo',
			partial: false,
			scenarioDigest: expect.stringMatching(/^[0-9a-f]{64}$/),
			resultDigest: expect.stringMatching(/^[0-9a-f]{64}$/),
		},
	});
	expect(out.replaceAll(/\s+/g, ' ')).toContain(result.sentence.replaceAll(/\s+/g, ' '));
	for (const words of ['1 of 1', '2 of 3', '› 150 mV', '300 mV', 'simulated in full', 'other times', 'dangerous']) {
		expect(out.replaceAll(/\s+/g, ' ')).toContain(words);
	}
});

test('one and three workers print the same digits; another seed does not', async () => {
	const one = await run([...asked, '--workers', '1']);
	expect(await run([...asked, '--workers', '3'])).toEqual(one);
	expect((await run([...asked, '--seed', 'other'])).out).not.toBe(one.out);
});

test('everything wrong with the input is listed before any worker is asked for: 2', async () => {
	const { code, out, problems } = await run(
		[
			scenario,
			'--filters',
			'2/3, 4/3, x',
			'--noise',
			'5 kV, abc, 1 mV',
			'--units',
			'1',
			'--json',
			join(folder, 'no', 'x.json'),
		],
		unreachableHost,
	);
	expect({ code, out }).toEqual({ code: 2, out: '' });
	for (const words of ['--filters', '4/3, x', '--noise', '5 kV', 'abc', 'at most 2', '--units', '--json']) {
		expect(problems).toContain(words);
	}
	const long = join(folder, 'long.json');
	writeFileSync(long, smallScenarioText({ detection: { majorityWindow: 15, majorityVotes: 8 } }));
	const refused = await run([long], unreachableHost);
	expect(refused.code).toBe(2);
	expect(refused.problems).toMatch(/detection\.majorityWindow: 15 must be at most 11/);
});

test('interrupted, what finished is printed and marked partial, nothing is confirmed: 130', async () => {
	const { terminal, kept, interrupt } = fakeTerminal(true);
	const running = votes([...filters, '--units', '5000'], terminal, host);
	const waiting = setInterval(() => {
		if (!/\d+ of 5000 drives/.test(kept.err)) return;
		clearInterval(waiting);
		interrupt();
	}, 5);
	expect(await running).toBe(130);
	expect(kept.out).toMatch(/PARTIAL RESULT/);
	expect(kept.out).not.toMatch(/simulated in full/);
});
