import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { isBuiltin } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { checkPack } from '../../src/command-line/pack/check-pack.ts';
import { packStudy } from '../../src/command-line/pack/pack-study.ts';
import { ensureBuilt } from '../../src/tooling/ensure-built.mjs';
import { projectRoot } from '../../src/tooling/project.mjs';
import { smallScenario, smallScenarioText } from '../study/small-scenario.ts';

vi.setConfig({ testTimeout: 120_000 });

const folder = mkdtempSync(join(tmpdir(), 'anglespread-'));
afterAll(() => rmSync(folder, { recursive: true }));
const inFolder = (name: string): string => join(folder, name);
let built: string;
let pack: Buffer;

/** As `npm run --silent NAME -- …` does once everything is built. */
function run(name: string, ...args: string[]) {
	const options = { cwd: projectRoot, encoding: 'utf8' } as const;
	const { status, stdout, stderr } = spawnSync(process.execPath, [`${built}${name}.js`, ...args], options);
	return { status, out: stdout.replaceAll(/\s+/g, ' '), err: stderr.replaceAll(/\s+/g, ' ') };
}

beforeAll(async () => {
	built = await ensureBuilt('command-line');
	writeFileSync(inFolder('small.json'), smallScenarioText());
	const asked = [inFolder('small.json'), '--units', '6', '--seed', 'a pack'];
	expect(run('study', ...asked, '--pack', inFolder('a.zip'), '--csv', inFolder('a.csv'))).toMatchObject({
		status: 0,
		err: '',
	});
	pack = readFileSync(inFolder('a.zip'));
});

test('the same study makes the same pack, byte by byte; its table has 12 rows and a header', () => {
	expect(
		run(
			'study',
			inFolder('small.json'),
			'--units',
			'6',
			'--seed',
			'a pack',
			'--workers',
			'1',
			'--pack',
			inFolder('b.zip'),
		).status,
	).toBe(0);
	expect(readFileSync(inFolder('b.zip')).equals(pack)).toBe(true);
	expect(readFileSync(inFolder('a.csv'), 'utf8').split('\r\n')).toHaveLength(14);
});

test('the packed program is plain JavaScript that imports nothing but Node’s own modules, none for a network', () => {
	const checked = checkPack(pack);
	if ('problems' in checked) throw new Error(JSON.stringify(checked.problems));
	const asked = new Set<string>();
	for (const [path, bytes] of checked.files) {
		if (!path.endsWith('.js')) continue;
		const text = bytes.toString();
		for (const [, name = ''] of text.matchAll(/^(?:import|export)\b[^;'"]*["']([^'"]+)["'];$/gm)) asked.add(name);
	}
	const others = [...asked].filter((name) => !name.startsWith('./')).map((name) => name.replace(/^node:/, ''));
	expect(others).toContain('fs');
	expect(others.filter((name) => !isBuiltin(name))).toEqual([]);
	expect(others.filter((name) => /^(?:net|tls|dns|dgram|https?|http2)(?:\/|$)/.test(name))).toEqual([]);
});

test('reproduce: 0, every figure is the same, byte by byte; by the same program', () => {
	const { status, out, err } = run('reproduce', inFolder('a.zip'), '--json', inFolder('again.json'));
	expect({ status, err }).toEqual({ status: 0, err: '' });
	expect(out).toMatch(/All [\d ]+ figures are the same, and the result files byte by byte\./);
	expect(out).toContain('This program is the packed one.');
	expect(JSON.parse(readFileSync(inFolder('again.json'), 'utf8'))).toMatchObject({
		format: 'anglespread-reproduction',
		packed: { differences: [], sameDrives: true, sameBytes: true },
		isSameProgram: true,
	});
});

test('a pack kept from an earlier state of the program still reproduces, and what this one makes of it is told apart', () => {
	const { status, out } = run('reproduce', 'tests/data/earlier-pack.zip');
	expect(status).toBe(0);
	expect(out).toMatch(
		/All [\d ]+ figures are the same, and the result files byte by byte\. Made again by the packed program/,
	);
	expect(out).toContain('With this program instead');
	expect(out).toMatch(/Version [\d.]+\. (?:All|\d+ of) [\d ]+ figures/);
});

test('2 and the file’s name for a changed byte in each file, and for 300 bytes all over the pack', () => {
	const checked = checkPack(pack);
	if ('problems' in checked) throw new Error(JSON.stringify(checked.problems));
	const text = pack.toString('latin1');
	const flipped = (at: number): Buffer => {
		const damaged = Buffer.from(pack);
		damaged[at] = (damaged[at] as number) ^ 0x10;
		return damaged;
	};
	const named = (at: number): string => {
		const found = checkPack(flipped(at));
		return 'problems' in found ? found.problems.map(({ path }) => path).join(', ') : 'none';
	};
	for (const path of ['manifest.json', ...checked.files.keys()]) {
		// some bytes into what follows its name
		expect(named(text.indexOf(path) + path.length + 12)).toBe(path);
	}
	for (let i = 0; i < 300; i += 1) expect(named(Math.floor(((i + 0.5) / 300) * pack.length))).not.toBe('none');
	writeFileSync(inFolder('bad.zip'), flipped(text.indexOf('results.json') + 1000));
	const { status, out, err } = run('reproduce', inFolder('bad.zip'));
	expect({ status, out }).toEqual({ status: 2, out: '' });
	expect(err).toContain('results.json is damaged');
	expect(err).toContain('Take the pack again from where it was kept.');
});

test('figures that the packed program does not make again end with 1, and are listed', () => {
	const checked = checkPack(pack);
	if ('problems' in checked) throw new Error(JSON.stringify(checked.problems));
	const program = [...checked.files]
		.filter(([path]) => path.startsWith('program/') && path.endsWith('.js'))
		.map(([path, bytes]) => ({ path: path.slice('program/'.length), bytes }));
	const other = packStudy({
		request: { scenario: smallScenario(), seed: 'another seed', units: 6, until: { rule: 'number' } },
		scenarioText: smallScenarioText(),
		resultText: Buffer.from(checked.files.get('results.json') as Uint8Array).toString('utf8'),
		version: '0.1.0',
		resultDigest: '',
		report: null,
		program,
	});
	writeFileSync(inFolder('other.zip'), other);
	const { status, out } = run('reproduce', inFolder('other.zip'), '--packed-only');
	expect(status).toBe(1);
	expect(out).toMatch(/\d+ of [\d ]+ figures differ[.,]/);
	expect(out).toContain('fast, half-bus');
});
