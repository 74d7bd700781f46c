import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import type { GradesResult } from '../../shared/grades/result.ts';
import { grades } from '../../src/command-line/grades.ts';
import { textWidth, widthOf } from '../../src/command-line/wrap-text.ts';
import type { WorkerHost } from '../../src/host/worker-handle.ts';
import { gradeScenarioText } from '../grades/grade-scenario.ts';
import { smallScenarioText } from '../study/small-scenario.ts';
import { commandBench, unreachableHost } from './command-bench.ts';
import { fakeTerminal } from './fake-terminal.ts';

// every comparison starts threads of its own: slow where the machine is busy with other tests
vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

const { host, folder, scenario } = await commandBench(gradeScenarioText());

async function run(argv: readonly string[], from: WorkerHost = host) {
	const { terminal, kept } = fakeTerminal();
	const code = await grades(argv, terminal, from);
	return { code, ...kept, problems: kept.err.replaceAll(/\s+/g, ' ') };
}

test('three grades with prices end with 0, every figure in the JSON and a text of 80 columns with the answers', async () => {
	const json = join(folder, 'out.json');
	const list = '5 %, 1 % E24+E96, array 1 %/0.1 % E24+E96';
	const { code, out, err } = await run([
		scenario,
		'--grades',
		list,
		'--prices',
		'1,2.5,9',
		'--units',
		'30',
		'--json',
		json,
	]);
	expect({ code, err }).toEqual({ code: 0, err: '' });
	const result = JSON.parse(readFileSync(json, 'utf8')) as GradesResult;
	expect(result.provenance).toMatchObject({
		seed: 'demo',
		unitsPerRun: 30,
		partial: false,
		version: expect.any(String),
		scenarioDigest: expect.stringMatching(/^[0-9a-f]{64}$/),
		requirement: { angleLimit: 6, share: 0.8, confidence: 0.95 },
	});
	expect(result.group).toBe('all');
	expect(result.grades.map(({ grade, price }) => [grade.name, price?.halfBus, price?.virtualNeutral])).toEqual([
		['1 % E24+E96', 20, 25],
		['5 %', 8, 10],
		['array 1 %/0.1 % E24+E96', 72, 90],
	]);
	for (const { cases, nominals } of result.grades) {
		expect(nominals).toHaveLength(6);
		for (const one of [cases.both, cases.nominals, cases.tolerance]) {
			expect(one.units).toEqual({ asked: 30, finished: 30, failed: 0 });
			for (const choice of [one.choices.halfBus, one.choices.virtualNeutral]) {
				expect(choice).toMatchObject({
					passed: expect.any(Number),
					share: expect.any(Number),
					crossingsPerHour: expect.any(Number),
					unitError: { median: expect.any(Number), q95: expect.any(Number) },
				});
				expect(choice.points.map(({ name }) => name)).toEqual(['fast']);
				expect(choice.points[0]?.rates).toMatchObject({ early: {}, late: {}, missed: {} });
			}
		}
	}
	const text = out.replaceAll(/\s+/g, ' ');
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		expect(text).toContain(result.enough[choice].sentence.replaceAll(/\s+/g, ' '));
		expect(text).toContain(result.enoughOfArrays?.[choice].sentence.replaceAll(/\s+/g, ' '));
		expect(text).toContain(result.cheapest?.[choice].sentence.replaceAll(/\s+/g, ' '));
	}
	for (const words of [
		'array 1 %/0.1 % E24+E96',
		'exact resistors',
		'nominals alone',
		'tolerance alone',
		'dangerous',
	]) {
		expect(out).toContain(words);
	}
	for (const line of out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
});

test('prices of eleven and of twelve digits stand apart from their neighbours, within 80 columns', async () => {
	const prices = '1, 12345678.125, 1000000000';
	const { code, out } = await run([
		scenario,
		...['--grades', '5 %, 1 %, 0.1 %', '--prices', prices, '--group', 'all', '--units', '3'],
	]);
	expect(code).toBe(0);
	// two blanks at least, since one groups digits; 8 resistors on the board with half-bus sensing, 10 on the other
	for (const price of ['8', '98765425', '8000000000', '10', '123456781.25', '10000000000']) {
		expect(out).toMatch(new RegExp(`  ${price.replace('.', '\\.')} +(holds|fails|undecided|not judged)$`, 'm'));
	}
	for (const line of out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
});

test('the same seed prints the same digits with one worker and with three', async () => {
	const argv = [scenario, '--group', 'divider', '--grades', '5 %, 0.1 %', '--units', '9'];
	expect(await run([...argv, '--workers', '3'])).toEqual(await run([...argv, '--workers', '1']));
});

test('--require ends with 0 where a grade is confirmed for the choice asked about, and with 1 where none is', async () => {
	const argv = [scenario, '--group', 'busDivider', '--units', '25', '--require'];
	expect((await run([...argv, '--grades', '0.1 %'])).code).toBe(0);
	expect((await run([...argv, '--grades', '20 %'])).code).toBe(1);
	expect(await run([...argv, '--choice', 'virtual-neutral'], unreachableHost)).toMatchObject({
		code: 2,
		problems: expect.stringContaining('--choice names a board without resistors of the bus divider'),
	});
});

test('--help shows a worked line, the exit codes and every option within 80 columns', async () => {
	const { code, out } = await run(['--help'], unreachableHost);
	expect(code).toBe(0);
	for (const words of [
		'npm run --silent grades -- ',
		'--group',
		'--grades',
		'--prices',
		'--require',
		'--json FILE',
		'1 done, --require',
	]) {
		expect(out.replaceAll(/\s+/g, ' ')).toContain(words);
	}
	for (const line of out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
});

test('bad grades, prices, group, scenario and file are all listed before anything runs: 2', async () => {
	const bad = join(folder, 'bad.json');
	writeFileSync(bad, smallScenarioText({ motor: { polePairs: 0.5 } }));
	const { code, out, problems } = await run(
		[
			bad,
			...['--group', 'halfBus', '--grades', '5 %, 0 %, array 1 %', '--prices', '1,x', '--units', '0'],
			...['--json', join(folder, 'no-such-folder', 'out.json')],
		],
		unreachableHost,
	);
	expect({ code, out }).toEqual({ code: 2, out: '' });
	for (const words of [
		'--group: halfBus must be divider, busDivider, star or all; did you mean busDivider?',
		'--grades: 0 % the tolerance must be above 0',
		'--grades: array 1 % needs two tolerances',
		'--prices: x must be a price',
		'--units: 0',
		'--json',
		'motor.polePairs',
	]) {
		expect(problems).toContain(words);
	}
	expect(await run([scenario, '--prices', '1,2'], unreachableHost)).toMatchObject({
		code: 2,
		problems: expect.stringContaining('2 prices for 5 grades'),
	});
});

test('interrupted, what finished is printed and written, marked partial and not judged: 130', async () => {
	const json = join(folder, 'partial.json');
	const { terminal, kept, interrupt } = fakeTerminal(true);
	const running = grades([scenario, '--units', '100000', '--json', json], terminal, host);
	while (!/\d\u202f?\d{3} of /.test(kept.err)) await new Promise((resolve) => setTimeout(resolve, 20));
	interrupt();
	expect(await running).toBe(130);
	expect(kept.out).toContain('PARTIAL RESULT');
	const { provenance, enough, exact } = JSON.parse(readFileSync(json, 'utf8')) as GradesResult;
	expect(provenance.partial).toBe(true);
	expect(enough.halfBus).toMatchObject({ loosest: null, confirmed: null });
	expect(exact.units.finished).toBeGreaterThan(0);
	expect(exact.units.finished).toBeLessThan(100_000);
});

test('a measured resistor that a grade replaces is cautioned about for that, not for being measured few times', async () => {
	const text = JSON.parse(gradeScenarioText()) as { sensing?: Record<string, unknown> };
	const top = { value: '48.7k', distribution: 'measured', measured: ['0.1 %'] };
	const path = join(folder, 'measured.json');
	const json = join(folder, 'measured-out.json');
	writeFileSync(path, JSON.stringify({ ...text, sensing: { ...text.sensing, halfBus: { top } } }));
	const cautionsOf = async (group: string) => {
		expect(await run([path, '--grades', '1 %', '--group', group, '--units', '10', '--json', json])).toMatchObject({
			err: '',
		});
		return (JSON.parse(readFileSync(json, 'utf8')) as GradesResult).provenance.warnings.join(' ');
	};
	const ofBus = await cautionsOf('busDivider');
	expect(ofBus).toContain('Measured deviations (bus divider, top) say nothing of another grade');
	expect(ofBus).not.toContain('measured value:');
	expect(await cautionsOf('star')).toContain('Bus divider, top: only 1 measured value: about 100');
});
