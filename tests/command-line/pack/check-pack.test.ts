import { createHash } from 'node:crypto';
import { unzipSync } from 'fflate';
import { expect, test, vi } from 'vitest';
import { checkPack, zipItself } from '../../../src/command-line/pack/check-pack.ts';
import { manifestText, readManifest } from '../../../src/command-line/pack/manifest.ts';
import { writeZip } from '../../../src/command-line/pack/zip-file.ts';
import { smallPack } from './small-pack.ts';

vi.setConfig({ testTimeout: 120_000 });

const pack = smallPack();
const files = unzipSync(pack);

const problemsOf = (bytes: Uint8Array) => {
	const checked = checkPack(bytes);
	return 'problems' in checked ? checked.problems : [];
};

/** Where each file's parts lie, by the signatures that every record of a zip begins with (APPNOTE 4.3.7, 4.3.12, 4.3.16). */
function sections(zip: Uint8Array): { readonly from: number; readonly owner: string }[] {
	const text = Buffer.from(zip).toString('latin1');
	const names = Object.keys(files);
	const places = (signature: string) => [...text.matchAll(new RegExp(signature, 'g'))].map(({ index }) => index);
	const local = places('PK\\x03\\x04');
	const directory = places('PK\\x01\\x02');
	const [end = 0] = places('PK\\x05\\x06');
	expect([local.length, directory.length]).toEqual([names.length, names.length]);
	return [
		...local.map((from, i) => ({ from, owner: names[i] as string })),
		...directory.map((from, i) => ({ from, owner: names[i] as string })),
		{ from: end, owner: zipItself },
	];
}

test('a pack is read as it was written, 8 files with the SHA-256 that their manifest states', () => {
	const checked = checkPack(pack);
	if ('problems' in checked) throw new Error(JSON.stringify(checked.problems));
	expect(checked.manifest).toMatchObject({ scenario: 'small', seed: 'two words', version: '0.1.0' });
	expect(checked.manifest.arguments.join(' ')).toBe('scenario.json --seed=two words --units 7 --json again.json');
	expect([...checked.files.keys()]).toEqual([
		'README.txt',
		'scenario.json',
		'results.json',
		'report.html',
		'program/study.js',
		'program/part-1.js',
		'program/package.json',
	]);
	// an unpacker and a digest of other makes
	for (const { path, sha256 } of checked.manifest.files) {
		expect(
			createHash('sha256')
				.update(files[path] as Uint8Array)
				.digest('hex'),
		).toBe(sha256);
	}
	expect(Buffer.from(files['README.txt'] as Uint8Array).toString()).toContain(
		'node program/study.js scenario.json "--seed=two words" --units 7 --json again.json',
	);
});

test('the same contents give the same bytes, in any time zone', () => {
	expect(smallPack()).toEqual(pack);
	const zone = process.env.TZ;
	process.env.TZ = 'America/Lima';
	try {
		expect(smallPack()).toEqual(pack);
	} finally {
		if (zone === undefined) delete process.env.TZ;
		else process.env.TZ = zone;
	}
});

test('each single byte of a pack, changed, is found and its file named', () => {
	const parts = sections(pack);
	const wrong: string[] = [];
	for (let at = 0; at < pack.length; at += 1) {
		const damaged = pack.slice();
		// another bit from byte to byte
		damaged[at] = (damaged[at] as number) ^ (1 << (at % 8));
		const { owner } = parts.findLast(({ from }) => from <= at) as { owner: string };
		const named = new Set(problemsOf(damaged).map(({ path }) => path));
		if (named.size !== 1 || !named.has(owner))
			wrong.push(`byte ${at} of ${owner}: named ${[...named].join(', ') || 'none'}`);
	}
	expect(wrong).toEqual([]);
});

test.each([
	['nothing', new Uint8Array()],
	['a text', Buffer.from('{"name": "fan"}')],
	['its first half', pack.slice(0, pack.length / 2)],
	['one byte more', Buffer.concat([pack, Buffer.from([0])])],
	['a byte before it', Buffer.concat([Buffer.from([0]), pack])],
])('%s is refused', (_, bytes) => {
	expect(problemsOf(bytes)).not.toEqual([]);
});

test('a file that is missing, and one that is too many, are named', () => {
	const entries = Object.entries(files).map(([path, bytes]) => ({ path, bytes }));
	expect(problemsOf(writeZip(entries.filter(({ path }) => path !== 'results.json')))).toMatchObject([
		{ path: 'results.json', message: 'is missing' },
	]);
	expect(problemsOf(writeZip([...entries, { path: 'extra.js', bytes: Buffer.from('1') }]))).toMatchObject([
		{ path: 'extra.js', message: 'is not in the manifest' },
	]);
});

test('a manifest of a newer version says what to do; paths that lead out of the folder are refused', () => {
	const reading = readManifest(files['manifest.json'] as Uint8Array);
	if ('problem' in reading) throw new Error(reading.problem.message);
	const problem = (over: object) => {
		const read = readManifest(Buffer.from(manifestText({ ...reading.manifest, ...over })));
		return 'problem' in read ? `${read.problem.value} ${read.problem.message}` : '';
	};
	expect(problem({})).toBe('');
	expect(problem({ formatVersion: 2 })).toContain(
		'is newer than this program, which reads version 1: use a newer program',
	);
	for (const path of ['../x', '/etc/x', 'a/../x', 'a//b', 'C:x', 'a\\b', '.x', '']) {
		expect(problem({ files: [{ path, bytes: 1, sha256: '' }] })).toContain('files[0].path');
	}
});
