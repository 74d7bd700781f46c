import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import type { EnvelopeResult } from '../../shared/envelope/envelope-result.ts';
import type { FirmwareResult } from '../../shared/firmware/firmware-result.ts';
import type { RangeResult } from '../../shared/range/range-result.ts';
import { envelope } from '../../src/command-line/envelope.ts';
import { firmware } from '../../src/command-line/firmware.ts';
import { range } from '../../src/command-line/range.ts';
import { textWidth, widthOf } from '../../src/command-line/wrap-text.ts';
import type { WorkerHost } from '../../src/host/worker-handle.ts';
import { smallScenarioText } from '../study/small-scenario.ts';
import { commandBench, unreachableHost } from './command-bench.ts';
import { fakeTerminal } from './fake-terminal.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

const commands = { range, envelope, firmware };
type Name = keyof typeof commands;

// any drive passes, so that what is tested does not hang on the figures
const { host, folder, scenario } = await commandBench(
	smallScenarioText({
		supply: { voltage: { value: 60, range: '5 %' } },
		detection: { compensation: '75 µs' },
		requirement: { angleLimit: '60°', crossingsPerHour: 1e9, share: 0.5, confidence: 0.9 },
	}),
);

async function run(name: Name, argv: readonly string[], from: WorkerHost = host) {
	const { terminal, kept } = fakeTerminal();
	const code = await commands[name](argv, terminal, from);
	return { code, ...kept, problems: kept.err.replaceAll(/\s+/g, ' ') };
}
const overVoltage = ['--over', 'supply.voltage=58 V..62 V/3'];
const specific: Record<Name, readonly string[]> = { range: overVoltage, envelope: [], firmware: [] };

test.each(['range', 'envelope', 'firmware'] as const)(
	'%s ends with 0, prints its sentence in 80 columns and nothing else, and writes JSON with its provenance',
	async (name) => {
		const json = join(folder, `${name}.json`);
		const { code, out, err } = await run(name, [
			scenario,
			...specific[name],
			'--units',
			'6',
			'--require',
			'--json',
			json,
		]);
		expect({ code, err }).toEqual({ code: 0, err: '' });
		for (const line of out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
		const result = JSON.parse(readFileSync(json, 'utf8')) as RangeResult | EnvelopeResult | FirmwareResult;
		expect(result.format).toBe(`anglespread-${name}`);
		expect(result.formatVersion).toBe(1);
		expect(result.provenance).toMatchObject({
			seed: 'demo',
			partial: false,
			scenarioDigest: expect.stringMatching(/^[0-9a-f]{64}$/),
			resultDigest: expect.stringMatching(/^[0-9a-f]{64}$/),
			units: { failed: 0 },
		});
		const flat = (words: string): string => words.replaceAll(/\s+/g, ' ');
		expect(flat(out)).toContain(flat(result.sentence));
		expect(out).toContain('dangerous');
	},
);

test.each(['range', 'envelope', 'firmware'] as const)(
	'%s prints the same digits with one and with three workers',
	async (name) => {
		const argv = [scenario, ...specific[name], '--units', '5'];
		const one = await run(name, [...argv, '--workers', '1']);
		expect(await run(name, [...argv, '--workers', '3'])).toEqual(one);
	},
);

test('a speed range draws both parameters of a pair, and its search, from the command line', async () => {
	const json = join(folder, 'pair.json');
	const { code, out } = await run('range', [
		scenario,
		...['--over', 'operation.speed=5000 rpm..6000 rpm/2', '--over', 'supply.voltage=46..48/2'],
		...['--units', '4', '--point', 'faster', '--json', json],
	]);
	expect(code).toBe(0);
	const { values, slowest, point } = JSON.parse(readFileSync(json, 'utf8')) as RangeResult;
	expect(values.filter(({ isSearched }) => !isSearched)).toHaveLength(4);
	expect(slowest).toHaveLength(2);
	expect(point).toBe('faster');
	expect(out).toContain('bus voltage 46\u00a0V');
});

test.each(['range', 'envelope', 'firmware'] as const)(
	'%s ends with 1 where --require is given and the requirement is not shown, for the choice asked alone',
	async (name) => {
		const strict = join(folder, 'strict.json');
		writeFileSync(strict, smallScenarioText({ requirement: { angleLimit: '0.01°' } }));
		const argv = [strict, ...specific[name], '--units', '3'];
		expect((await run(name, argv)).code).toBe(0);
		expect((await run(name, [...argv, '--require', '--choice', 'virtual-neutral'])).code).toBe(1);
		expect(await run(name, [...argv, '--choice', 'virtual-neutral'])).toMatchObject({
			code: 2,
			problems: expect.stringContaining('--choice: virtual-neutral goes with --require or --test-report:'),
		});
	},
);

test('everything wrong with a range is listed at once, and nothing runs: 2', async () => {
	const json = join(folder, 'no-such-folder', 'out.json');
	const { code, out, problems } = await run(
		'range',
		[
			scenario,
			...['--over', 'operation.speeed=1..2/3', '--over', 'supply.voltage=0 V..900 kV/5'],
			...['--units', '0', '--load', 'cubic', '--resolution', '90 %', '--point', 'fastest', '--json', json],
		],
		unreachableHost,
	);
	expect({ code, out }).toEqual({ code: 2, out: '' });
	for (const words of [
		'did you mean operation.speed?',
		'bus voltage must be from 1 V to 1.5 kV',
		'--units: 0',
		'square or constant',
		'from 0.01 % to 50 %',
		'did you mean faster?',
		'--json',
	]) {
		expect(problems).toContain(words);
	}
});

test.each([
	[[], 'is missing'],
	[['--over', 'supply.voltage=46 V', '--over', 'supply.voltage=48 V'], 'named twice'],
	[
		['--over', 'supply.voltage=46', '--over', 'motor.flatTop=100', '--over', 'noise.sigma=0'],
		'given more than 2 times',
	],
	[
		['--over', 'supply.voltage=46', '--over', 'motor.flatTap=100', '--over', 'noise.sigma=0'],
		'given more than 2 times',
	],
	[['--over', 'supply.voltage=46', '--over', 'motor.flatTap=100', '--over', 'noise.sigma=0'], 'motor.flatTop'],
	[['--over', 'detection.majorityVotes=2..5/4'], 'majority window of 3'],
	[['--over', 'supply.voltage=40..48/101', '--units', '100000'], 'at most 1\u202f000\u202f000 are kept'],
])('range %j is refused: %s', async (argv, words) => {
	const { code, err } = await run('range', [scenario, ...argv], unreachableHost);
	expect(code).toBe(2);
	expect(err.replaceAll(/[ \n]+/g, ' ')).toContain(words);
});

test('an envelope that could not be thinned as far as asked says how far it can', async () => {
	const { code, problems } = await run('envelope', [scenario, '--combinations', '3'], unreachableHost);
	expect(code).toBe(2);
	expect(problems).toMatch(/too few of the 16 combinations .* at least 8/);
});

test.each(['range', 'envelope', 'firmware'] as const)(
	'%s, interrupted, prints and writes what finished, marked partial: 130',
	async (name) => {
		const json = join(folder, `${name}-partial.json`);
		const { terminal, kept, interrupt } = fakeTerminal(true);
		const argv = [scenario, ...specific[name], '--units', '20000', '--json', json];
		const running = commands[name](argv, terminal, host);
		while (!/\d{2,} of/.test(kept.err)) await new Promise((resolve) => setTimeout(resolve, 20));
		interrupt();
		expect(await running).toBe(130);
		expect(kept.out).toContain('PARTIAL RESULT: interrupted after');
		expect(existsSync(json)).toBe(true);
		const { provenance } = JSON.parse(readFileSync(json, 'utf8')) as RangeResult;
		expect(provenance.partial).toBe(true);
		expect(provenance.units.finished).toBeLessThan(provenance.units.asked);
	},
);

test.each(['range', 'envelope', 'firmware'] as const)(
	'%s --help shows a worked line, the exit codes and every option within 80 columns',
	async (name) => {
		const { code, out } = await run(name, ['--help'], unreachableHost);
		expect(code).toBe(0);
		expect(out).toContain(`npm run --silent ${name} -- SCENARIO.json`);
		expect(out.replaceAll(/\s+/g, ' ')).toMatch(/0 done; 1 done, --require/);
		for (const line of out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
	},
);
