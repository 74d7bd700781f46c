import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import type { ReplicatesResult } from '../../shared/replicates/replicates-result.ts';
import { readResult } from '../../shared/results/read-result.ts';
import type { StudyResult } from '../../shared/study/result.ts';
import { study } from '../../src/command-line/study.ts';
import { textWidth, widthOf } from '../../src/command-line/wrap-text.ts';
import type { WorkerHost } from '../../src/host/worker-handle.ts';
import { smallScenarioText } from '../study/small-scenario.ts';
import { commandBench, unreachableHost } from './command-bench.ts';
import { fakeTerminal } from './fake-terminal.ts';

// every study starts threads of its own: slow where the machine is busy with other tests
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const { host, folder, scenario } = await commandBench(smallScenarioText());

async function run(argv: readonly string[], from: WorkerHost = host) {
	const { terminal, kept } = fakeTerminal();
	const code = await study(argv, terminal, from);
	// lines are broken to fit 80 columns: one line is easier to search
	return { code, ...kept, problems: kept.err.replaceAll(/\s+/g, ' ') };
}

test('20 drives end with 0, nothing but the comparison on the output, and JSON with every promised figure', async () => {
	const json = join(folder, 'out.json');
	const { code, out, err } = await run([scenario, '--units', '20', '--seed', 'demo', '--json', json]);
	expect({ code, err }).toEqual({ code: 0, err: '' });
	const result = JSON.parse(readFileSync(json, 'utf8')) as StudyResult;
	expect(result.provenance).toMatchObject({
		seed: 'demo',
		units: { asked: 20, finished: 20, failed: 0 },
		partial: false,
		version: expect.any(String),
		scenarioDigest: expect.stringMatching(/^[0-9a-f]{64}$/),
		resultDigest: expect.stringMatching(/^[0-9a-f]{64}$/),
	});
	expect(result.points.map(({ name }) => name)).toEqual(['fast', 'faster']);
	const number = expect.any(Number);
	const rate = { count: number, rate: number, low: number, high: number, perHour: number };
	for (const { choices, paired } of result.points) {
		for (const figures of [choices.halfBus, choices.virtualNeutral]) {
			expect(figures).toMatchObject({
				units: 20,
				sectors: 480,
				angleError: {
					mean: number,
					sd: number,
					quantiles: { '0.005': number, '0.025': number, '0.5': number, '0.975': number, '0.995': number },
					maxAbs: number,
				},
				rates: { early: rate, late: rate, missed: rate },
				causes: { freewheel: number, noise: number, threshold: number },
				lost: number,
				meanTorque: number,
				torqueNotReached: number,
			});
		}
		expect(paired).toMatchObject({ units: 20, p: number, sentence: expect.any(String) });
		expect(out.replaceAll(/\s+/g, ' ')).toContain(paired.sentence.replaceAll(/\s+/g, ' '));
	}
	// which errs less is no answer before whether either is good enough
	expect(out.indexOf('By angle error, ')).toBeGreaterThan(out.indexOf(result.verdict.halfBus.sentence.slice(0, 20)));
	for (const line of out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
	// a range that the scenario states, and one that it leaves to its default
	expect(out.replaceAll(/\s+/g, ' ')).toContain('speed 6000 rpm ± 2 %, load torque 50 mN·m, bus voltage 48 V ± 5 %');
	for (const words of [result.provenance.resultDigest, 'half-bus', 'virtual neutral', 'dangerous']) {
		expect(out).toContain(words);
	}
});

test('what the inputs put in doubt is told once, after the verdict and before the figures', async () => {
	const doubtful = join(folder, 'doubtful.json');
	writeFileSync(doubtful, smallScenarioText({ sensing: { divider: { top: '33k' } } }));
	const { out } = await run([doubtful, '--units', '2']);
	expect(out.match(/nominal gains differ/g)).toHaveLength(1);
	const places = ['── Verdict', '── Cautions', '── fast', '── What this rests on'].map((words) => out.indexOf(words));
	expect(places).not.toContain(-1);
	expect([...places].sort((one, other) => one - other)).toEqual(places);
});

test('the same seed prints the same digits with one and with three workers', async () => {
	const one = await run([scenario, '--units', '9', '--workers', '1']);
	const three = await run([scenario, '--units', '9', '--workers', '3']);
	expect(three).toEqual(one);
	const other = await run([scenario, '--units', '9', '--seed', 'other']);
	expect(other.out).not.toBe(one.out);
});

test('bad options, a bad scenario and an unwritable file are all listed before anything runs: 2', async () => {
	const bad = join(folder, 'bad.json');
	writeFileSync(
		bad,
		smallScenarioText({ motor: { polePairs: 0.5, phaseResistanse: 1 }, points: [{ name: 'x', speed: -5 }] }),
	);
	const json = join(folder, 'no-such-folder', 'out.json');
	const { code, out, err } = await run([bad, '--units', '-3', '--json', json], unreachableHost);
	expect({ code, out }).toEqual({ code: 2, out: '' });
	for (const words of ['--units', '--json', 'motor.polePairs', 'phaseResistanse', 'points[0].speed', 'torque']) {
		expect(err).toContain(words);
	}
	expect(err).toMatch(/^There are \d problems/);
});

test('a file that is not there, a folder, and a text that is not JSON give 2 and say so', async () => {
	expect(await run([join(folder, 'nowhere.json')], unreachableHost)).toMatchObject({
		code: 2,
		problems: expect.stringContaining('no such file'),
	});
	expect(await run([folder], unreachableHost)).toMatchObject({ code: 2, problems: expect.stringContaining('folder') });
	const text = join(folder, 'text.json');
	writeFileSync(text, 'speed = 3000');
	expect((await run([text], unreachableHost)).code).toBe(2);
	expect(await run([], unreachableHost)).toMatchObject({ code: 2, problems: expect.stringContaining('is missing') });
});

test('results may not overwrite the scenario, and a check for writing leaves no file behind', async () => {
	const { code, problems } = await run([scenario, '--json', scenario], unreachableHost);
	expect(code).toBe(2);
	expect(problems).toContain('is the input file');
	const json = join(folder, 'left-behind.json');
	await run([scenario, '--units', 'x', '--json', json], unreachableHost);
	expect(existsSync(json)).toBe(false);
});

test('--require is refused where no chances are computed, since the hourly limit could not be shown to hold', async () => {
	const long = join(folder, 'long.json');
	writeFileSync(long, smallScenarioText({ detection: { majorityWindow: 12, majorityVotes: 2 } }));
	const { code, err } = await run([long, '--units', '2', '--require']);
	expect(code).toBe(2);
	expect(err).toMatch(/--require\s+cannot be answered with detection\.majorityWindow above 11/);
	expect((await run([long, '--units', '2'])).out).toMatch(/majority window of 12 readings no chances are computed/);
});

test('--require ends with 1 unless the verdict holds; --choice says whose', async () => {
	const strict = join(folder, 'strict.json');
	writeFileSync(strict, smallScenarioText({ requirement: { angleLimit: '0.1°', share: '50 %' } }));
	const easy = join(folder, 'easy.json');
	const requirement = { angleLimit: '60°', crossingsPerHour: 1e9, share: '50 %' };
	writeFileSync(easy, smallScenarioText({ requirement, supply: { voltage: 54 } }));
	expect((await run([easy, '--units', '10', '--require'])).code).toBe(0);
	const failing = await run([strict, '--units', '10', '--require', '--choice', 'half-bus']);
	expect(failing.code).toBe(1);
	expect(failing.out).toContain('Half-bus fails: 0 of 10 drives pass');
	expect(failing.out).toMatch(
		/\nRelease gate \(study\): NOT PASSED, 1 of 1 not shown to hold; exit code 1\n {2}fails /,
	);
	// figures are the same, and without --require they are all that is asked for
	const report = join(folder, 'gate.xml');
	const ungated = await run([strict, '--units', '10', '--test-report', report]);
	expect(ungated).toMatchObject({ code: 0, out: failing.out.slice(0, failing.out.indexOf('\nRelease gate')) });
	expect(readFileSync(report, 'utf8')).toMatch(/<testsuites tests="3" failures="2" errors="0">/);
	// 4 of 4 show 47 % of drives with 95 % confidence, 5 of 5 show 54 %
	expect((await run([easy, '--units', '4', '--require'])).code).toBe(1);
	expect((await run([easy, '--units', '5', '--require'])).code).toBe(0);
});

test('--until decided stops at the first look that decides, the same for one and three workers, with the digest of that many drives', async () => {
	const easy = join(folder, 'decided.json');
	writeFileSync(
		easy,
		smallScenarioText({
			requirement: { angleLimit: '60°', crossingsPerHour: 1e9, share: '97 %' },
			supply: { voltage: 54 },
		}),
	);
	// without a failure 97 % are shown by the confidence sequence after 136 drives (recomputed apart): the third look, at 157
	const json = join(folder, 'decided-out.json');
	const one = await run([easy, '--until', 'decided', '--workers', '1', '--json', json]);
	expect(one.code).toBe(0);
	expect(one.out.replaceAll(/\s+/g, ' ')).toContain(
		'The study ended at 157 drives, after 3 looks, with the verdict decided',
	);
	const three = await run([easy, '--until', 'decided', '--workers', '3']);
	expect(three).toEqual(one);
	const { provenance, verdict, stopping } = JSON.parse(readFileSync(json, 'utf8')) as StudyResult;
	expect(provenance).toMatchObject({ partial: false, units: { asked: 157, finished: 157 } });
	expect(verdict.halfBus).toMatchObject({ decision: 'holds', limits: 'confidence sequence' });
	expect(stopping).toMatchObject({ rule: 'decided', ceiling: 20_000, looks: [100, 125, 157], reached: true });
	expect((await run([easy, '--units', '157'])).out).toContain(provenance.resultDigest);
});

test('the ceiling ends a study that nothing decides, and that is said', async () => {
	const { code, out } = await run([scenario, '--until', 'settled', '--units', '30', '--digits', '2']);
	expect(code).toBe(0);
	expect(out.replaceAll(/\s+/g, ' ')).toContain('Not settled in 30 drives');
	const bad = await run([scenario, '--until', 'soon', '--digits', '2', '--choice', 'left'], unreachableHost);
	expect(bad.code).toBe(2);
	for (const words of ['decided or settled', 'goes with --until settled', 'half-bus, virtual-neutral or both']) {
		expect(bad.problems).toContain(words);
	}
});

test('interrupted, what finished is printed and written, marked partial: 130', async () => {
	const json = join(folder, 'partial.json');
	const { terminal, kept, interrupt } = fakeTerminal(true);
	const running = study([scenario, '--units', '100000', '--json', json], terminal, host);
	// a thousand drives, as counted on a live terminal, are many shards
	while (!/\d\u202f?\d{3} of 100/.test(kept.err)) await new Promise((resolve) => setTimeout(resolve, 20));
	interrupt();
	expect(await running).toBe(130);
	expect(kept.out).toContain('PARTIAL RESULT: interrupted after');
	const { provenance, points } = JSON.parse(readFileSync(json, 'utf8')) as StudyResult;
	expect(provenance.partial).toBe(true);
	expect(provenance.units.asked).toBe(100_000);
	expect(provenance.units.finished).toBeGreaterThan(0);
	expect(provenance.units.finished).toBeLessThan(100_000);
	expect(points[0]?.choices.halfBus.units).toBe(provenance.units.finished);
});

test('interrupted while its report is computed, the study is told whole, the report as cut short, no pack is made: 130', async () => {
	const [json, report] = [join(folder, 'whole.json'), join(folder, 'cut.html')];
	const { terminal, kept, interrupt } = fakeTerminal(true);
	const asked = ['--units', '20', '--require', '--report-with', 'budgets, weakest', '--json', json, '--report', report];
	const running = study([scenario, ...asked], terminal, host);
	while (!kept.err.includes('budgets: ')) await new Promise((resolve) => setTimeout(resolve, 1));
	interrupt();
	expect(await running).toBe(130);
	expect(kept.out).not.toContain('PARTIAL RESULT');
	expect(kept.out).toMatch(/^Release gate \(study\): .*INTERRUPTED before its files were whole; exit code 130$/m);
	expect(kept.err).toContain('Interrupted: the study is whole, its report is not.');
	expect(JSON.parse(readFileSync(json, 'utf8')).provenance.partial).toBe(false);
	expect(readFileSync(report, 'utf8')).toContain('Interrupted before it was computed.');
});

test('a calculation of the report that breaks down takes nothing of the study with it', async () => {
	const [json, report] = [join(folder, 'kept.json'), join(folder, 'none.html')];
	const broken: WorkerHost = {
		...host,
		spawn: () => {
			const worker = host.spawn();
			return {
				warmUp: (options) => worker.warmUp(options),
				call: (name, ...rest) =>
					// an answer that nothing can be made of
					name === 'judgedDrives' ? Promise.resolve({} as never) : worker.call(name, ...rest),
				terminate: () => worker.terminate(),
			};
		},
	};
	const asked = ['--units', '20', '--report-with', 'weakest', '--json', json, '--report', report];
	const { code, out, problems } = await run([scenario, ...asked], broken);
	expect(code).toBe(1);
	expect(out).toContain('20 asked, 20 finished, 0 failed');
	expect(problems).toContain('none.html could not be written: what it shows beside the study could not be computed: ');
	expect(existsSync(report)).toBe(false);
	expect(JSON.parse(readFileSync(json, 'utf8')).provenance.units.finished).toBe(20);
});

test('drives that could not be simulated are shown in the text', async () => {
	const dead: WorkerHost = {
		cores: 1,
		spawn: () => ({
			warmUp: () => Promise.reject(new Error('no threads left')),
			call: () => Promise.reject(new Error('no threads left')),
			terminate() {},
		}),
	};
	const { code, out } = await run([scenario, '--units', '7'], dead);
	expect(code).toBe(0);
	expect(out).toContain('7 asked, 0 finished, 7 failed');
	expect(out).toContain('no threads left');
});

test('--json is read back: figures, scenario and the units behind them, whose digest is the one told', async () => {
	const json = join(folder, 'kept.json');
	expect((await run([scenario, '--units', '5', '--json', json])).code).toBe(0);
	const reading = await readResult(readFileSync(json, 'utf8'));
	expect(reading).toMatchObject({
		result: { formatVersion: 3, provenance: { units: { finished: 5 } } },
		scenario: { name: 'small' },
		record: { study: { units: 5 } },
	});
});

test('--journal: a second run takes all drives from the file, more drives add to it, and another seed or file is refused before anything runs: 2', async () => {
	const journal = join(folder, 'study.journal');
	const first = await run([scenario, '--units', '30', '--journal', journal]);
	expect(first.err).toBe('');
	const again = await run([scenario, '--units', '30', '--journal', journal]);
	expect(again).toMatchObject({
		code: 0,
		out: first.out,
		problems: expect.stringMatching(/^Journal .* 30 of 30 drives are taken from it\. $/),
	});
	const more = await run([scenario, '--units', '40', '--journal', journal]);
	expect(more.problems).toContain('30 of 40 drives are taken');
	expect(more.out).toBe((await run([scenario, '--units', '40'])).out);

	const refused = await run([scenario, '--seed', 'other', '--journal', journal], unreachableHost);
	expect({ code: refused.code, out: refused.out }).toEqual({ code: 2, out: '' });
	expect(refused.problems).toMatch(/--journal: .*is the journal of seed “demo”, not “other”: go on with --seed "demo"/);
	const wrong = await run([scenario, '--json', journal, '--journal', journal], unreachableHost);
	expect(wrong).toMatchObject({ code: 2, problems: expect.stringContaining('is the file that --json writes') });
	expect(await run([scenario, '--journal', scenario], unreachableHost)).toMatchObject({ code: 2 });
	expect(readFileSync(scenario, 'utf8')).toBe(smallScenarioText());
});

test('stratified draws: intervals over replicates and no verdict, in 80 columns, with the draws in the provenance', async () => {
	const json = join(folder, 'sobol.json');
	const { code, out, err } = await run([scenario, '--draws', 'sobol', '--units', '32', '--json', json]);
	expect({ code, err }).toEqual({ code: 0, err: '' });
	for (const line of out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
	const result = JSON.parse(readFileSync(json, 'utf8')) as ReplicatesResult;
	expect(result.format).toBe('anglespread-replicates');
	expect(result.provenance.draws).toEqual({ kind: 'sobol', replicates: { asked: 16, finished: 16 }, units: 2 });
	expect(result.points.map(({ name }) => name)).toEqual(['fast', 'faster']);
	expect(out).toContain('no verdict');
	expect(out).not.toMatch(/Clopper|order stat/);
	expect(await run([scenario, '--draws', 'sobol', '--units', '32', '--workers', '3'])).toMatchObject({ out });
});

test('what needs independent draws is refused with stratified ones, as are numbers that fill no net: 2', async () => {
	const { code, problems } = await run(
		[
			scenario,
			'--draws',
			'sobol',
			'--units',
			'1000',
			'--until',
			'decided',
			'--require',
			'--csv',
			join(folder, 'x.csv'),
		],
		unreachableHost,
	);
	expect(code).toBe(2);
	for (const option of ['--until', '--require', '--csv']) {
		expect(problems).toContain(`${option}`);
	}
	expect(problems.match(/leave out --draws, or this/g)).toHaveLength(3);
	expect(problems).toMatch(/--units: 1000 must be 16 times a power of two/);
	const latin = await run([scenario, '--draws', 'latin', '--units', '40'], unreachableHost);
	expect(latin.problems).toMatch(/--units: 40 must be 16 times a whole number/);
});

// with the rest of study's options: --units, --seed, --workers and --json are honoured, as the tests above and below hold
const refusedWithDraws: readonly (readonly [option: string, ...value: string[]])[] = [
	['--until', 'decided'],
	['--until', 'settled'],
	['--digits', '2'],
	['--choice', 'half-bus'],
	['--choice', 'virtual-neutral'],
	['--require'],
	['--test-report', join(folder, 'draws.xml')],
	['--journal', join(folder, 'draws.journal')],
	['--csv', join(folder, 'draws.csv')],
	['--correlations', join(folder, 'draws-correlations.csv')],
	['--report', join(folder, 'draws.html')],
	['--report-with', 'budgets'],
	['--pack', join(folder, 'draws.zip')],
];

test.each(
	refusedWithDraws.flatMap((option) => [
		['latin', ...option],
		['sobol', ...option],
	]),
)('--draws %s refuses %s, alone, with a sentence, and leaves no file: 2', async (kind, option, ...value) => {
	const { code, out, problems } = await run(
		[scenario, '--draws', kind, '--units', '32', option, ...value],
		unreachableHost,
	);
	expect({ code, out }).toEqual({ code: 2, out: '' });
	const found = [option, ...value].join(': ');
	expect(problems).toMatch(
		/^There is a problem with the input: .* independently of one another: leave out --draws, or this $/,
	);
	expect(problems).toContain(`input: ${found} `);
	expect(readdirSync(folder).filter((name) => name.startsWith('draws.'))).toEqual([]);
});

test('every option of study is either refused with --draws or one that such a study follows', async () => {
	const { out } = await run(['--help'], unreachableHost);
	const options = new Set([...out.matchAll(/^ {2}(--[a-z-]+)/gm)].map(([, option]) => option));
	const refused = refusedWithDraws.map(([option]) => option);
	expect([...options]).toEqual(expect.arrayContaining(refused));
	expect([...options].filter((option = '') => !refused.includes(option)).sort()).toEqual([
		'--draws',
		'--help',
		'--json',
		'--seed',
		'--units',
		'--workers',
	]);
});

test('--seed and --choice both are followed with stratified draws', async () => {
	const argv = [scenario, '--draws', 'latin', '--units', '32'];
	const plain = await run(argv);
	expect(await run([...argv, '--choice', 'both'])).toEqual(plain);
	const other = await run([...argv, '--seed', 'other']);
	expect(other.code).toBe(0);
	expect(other.out).toContain('other');
	expect(other.out).not.toBe(plain.out);
});

test('one choice where nothing asks for a verdict is refused rather than passed over: 2', async () => {
	for (const further of [[], ['--until', 'settled'], ['--json', join(folder, 'idle.json')]]) {
		const { code, problems } = await run([scenario, '--choice', 'half-bus', ...further], unreachableHost);
		expect(code).toBe(2);
		expect(problems).toContain(
			'--choice: half-bus goes with --require, --test-report or --until decided: every other figure is of both choices',
		);
	}
	const report = join(folder, 'one.xml');
	const asked = await run([scenario, '--units', '4', '--choice', 'half-bus', '--test-report', report]);
	expect(asked.code).toBe(0);
	expect(readFileSync(report, 'utf8')).toMatch(/tests="2"/);
	expect((await run([scenario, '--units', '4', '--choice', 'both'])).code).toBe(0);
});

test('independent draws are the default, and say so', async () => {
	const { out } = await run([scenario, '--units', '4']);
	expect(await run([scenario, '--units', '4', '--draws', 'independent'])).toMatchObject({ out });
	expect(out).toContain('Draws: every drive independent of the others');
});
