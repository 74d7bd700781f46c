import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test, vi } from 'vitest';
import type { ChangesResult } from '../../shared/changes/changes-result.ts';
import { jsonText } from '../../shared/results/json-text.ts';
import { contentsDigest } from '../../shared/results/result-file.ts';
import { changes } from '../../src/command-line/changes.ts';
import { study } from '../../src/command-line/study.ts';
import { textWidth, widthOf } from '../../src/command-line/wrap-text.ts';
import { smallScenarioText } from '../study/small-scenario.ts';
import { commandBench } from './command-bench.ts';
import { fakeTerminal } from './fake-terminal.ts';

// every study starts threads of its own: slow where the machine is busy with other tests
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const requirement = { angleLimit: '6°', crossingsPerHour: 1e9, share: '50 %' };
const { host, folder, scenario } = await commandBench(smallScenarioText({ requirement, supply: { voltage: 54 } }));
const file = (name: string): string => join(folder, name);

async function run(...argv: string[]) {
	const { terminal, kept } = fakeTerminal();
	const code = await changes(argv, terminal);
	return { code, ...kept, words: `${kept.out}${kept.err}`.replaceAll(/\s+/g, ' ') };
}

beforeAll(async () => {
	const simulate = (from: string, ...more: string[]) =>
		study([from, '--units', '40', ...more], fakeTerminal().terminal, host);
	await simulate(scenario, '--json', file('before.json'));
	writeFileSync(
		file('other.scenario'),
		smallScenarioText({ requirement, supply: { voltage: 54 }, sensing: { divider: { top: '24k' } } }),
	);
	await simulate(file('other.scenario'), '--json', file('after.json'));
	await simulate(scenario, '--seed', 'new', '--json', file('seed.json'));
});

test('a result against itself: nothing changed, no verdict is worse, within 80 columns', async () => {
	const { code, out, err } = await run(file('before.json'), file('before.json'), '--no-worse');
	expect({ code, err }).toEqual({ code: 0, err: '' });
	expect(out).toContain('Nothing changed');
	expect(out).toContain('Release gate (changes): PASSED; exit code 0');
	for (const line of out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
});

test('24 kΩ in the dividers: told as the one input changed, every drive paired with itself, the verdict worse: 1 with --no-worse', async () => {
	const json = file('changes.json');
	const { code, out, words } = await run(file('before.json'), file('after.json'), '--no-worse', '--json', json);
	expect(code).toBe(1);
	expect(words).toContain('The verdict on virtual neutral got worse: it held, and now fails.');
	expect(words).toContain('1 input changed.');
	expect(words).toContain('- phase divider, top: 22 kΩ → 24 kΩ');
	expect(words).toContain('On the same 40 drives');
	expect(words).toMatch(/half-bus less virtual neutral median difference /);
	for (const line of out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
	const found = JSON.parse(readFileSync(json, 'utf8')) as ChangesResult;
	expect(found).toMatchObject({ pairing: 'drives', worse: true, sameScenario: false, requirementChanged: false });
	const typical = found.points[0]?.change?.choices.virtualNeutral.typical;
	expect(typical?.low).toBeGreaterThan(0);
	expect((await run(file('before.json'), file('after.json'))).code).toBe(0);
	// the other way round it got better, and that is no reason to stop a release
	const back = await run(file('after.json'), file('before.json'), '--no-worse');
	expect(back.code).toBe(0);
	expect(back.words).toContain('got better: it failed, and now holds.');
});

test('another seed is said to be other drives; a file of version 1, which holds none, is compared by its figures alone', async () => {
	const apart = await run(file('before.json'), file('seed.json'));
	expect(apart.words).toContain('40 drives each, not the same');
	expect(apart.words).toContain('different seeds, so their drives are different ones');
	expect(apart.words).toContain('No input changed.');

	const {
		scenario: _scenario,
		units: _units,
		digest: _digest,
		...figures
	} = JSON.parse(readFileSync(file('before.json'), 'utf8').replaceAll('1e999', 'null'));
	writeFileSync(file('older.json'), JSON.stringify({ ...figures, formatVersion: 1 }));
	const older = await run(file('older.json'), file('after.json'), '--json', file('older-changes.json'));
	expect(older.code).toBe(0);
	expect(older.words).toContain(
		'The earlier file does not hold its drives: files of version 1 do not. To compare drive by drive, run that study again with this program, and --json.',
	);
	expect(older.words).not.toContain('The later file');
	expect(older.words).toContain('what is different cannot be told');
	const found = JSON.parse(readFileSync(file('older-changes.json'), 'utf8')) as ChangesResult;
	const paired = JSON.parse(readFileSync(file('changes.json'), 'utf8')) as ChangesResult;
	const of = ({ points }: ChangesResult) => points[0]?.change?.choices.virtualNeutral.typical;
	expect(of(found)?.change).toBeCloseTo(of(paired)?.change ?? Number.NaN, 12);
	expect((of(found)?.high ?? 0) - (of(found)?.low ?? 0)).toBeGreaterThan(
		(of(paired)?.high ?? 0) - (of(paired)?.low ?? 0),
	);
});

test('without an operating point in both nothing is compared, and neither pairs nor limits are spoken of', async () => {
	const contents = JSON.parse(readFileSync(file('seed.json'), 'utf8').replaceAll('1e999', 'null'));
	const { scenario: _scenario, units: _units, digest: _digest, ...figures } = contents;
	const points = figures.points.map((point: { name: string }) => ({ ...point, name: `${point.name}, renamed` }));
	writeFileSync(file('renamed.json'), JSON.stringify({ ...figures, points, formatVersion: 1 }));
	const { code, words } = await run(file('before.json'), file('renamed.json'));
	expect(code).toBe(0);
	expect(words).toContain('No operating point is in both results, so no figures are compared.');
	expect(words).not.toMatch(/\bpairs?\b|Limits of medians/);
	// other drives at the same points have limits, but none of pairs
	const apart = await run(file('before.json'), file('seed.json'));
	expect(apart.words).toContain('of rates from the ratio estimator. Before:');
	expect((await run(file('before.json'), file('after.json'))).words).toContain('those of pairs by the correlation');
});

test('a file whose drives were too many for it: said which, how many a file takes, and to run no more', async () => {
	const { digest: _, ...contents } = JSON.parse(readFileSync(file('before.json'), 'utf8'));
	const units = { asked: 400_000, finished: 400_000, failed: 0 };
	const large = { ...contents, units: null, provenance: { ...contents.provenance, units } };
	writeFileSync(file('large.json'), jsonText({ ...large, digest: await contentsDigest(large) }));
	const { code, words } = await run(file('before.json'), file('large.json'));
	expect(code).toBe(0);
	// 250 MB of 4 bytes a count and 8 a measure, two choices at two points
	expect(words).toMatch(
		/The later file does not hold its drives: a file takes 3\d\d \d{3} of as many operating points\. To compare drive by drive, run that study again with no more, and --json\./,
	);
	expect(words).not.toContain('The earlier file');
});

test('one file missing, one too many, a damaged one and one of another kind: 2, each problem named with its file', async () => {
	expect((await run(file('before.json'))).words).toContain('AFTER.json is missing: name the file to read');
	expect(await run(file('a'), file('b'), file('c'))).toMatchObject({
		code: 2,
		words: expect.stringMatching(/is one file too many, after .*a and .*b.*cannot be read/),
	});
	const text = readFileSync(file('before.json'), 'utf8');
	writeFileSync(file('damaged.json'), text.replace('"passed": ', '"passed": 1'));
	const { code, words } = await run(file('damaged.json'), scenario);
	expect(code).toBe(2);
	expect(words).toMatch(/damaged.json, digest.*is damaged or was edited/);
	expect(words).toMatch(/small.json, format.*give the file that `study --json` wrote/);
});
