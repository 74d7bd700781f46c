import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { unitStates } from '../../shared/study/merge.ts';
import { writeJson, writeOutput } from '../../src/command-line/output-file.ts';
import { studyFileRemarks } from '../../src/command-line/study-files.ts';
import { fakeTerminal } from './fake-terminal.ts';

const folder = mkdtempSync(join(tmpdir(), 'anglespread-'));
afterAll(() => rmSync(folder, { recursive: true }));

test('every command’s JSON has infinite figures as 1e999, which is read as infinity, and none as null', () => {
	const path = join(folder, 'out.json');
	writeJson(path, {
		worst: Number.POSITIVE_INFINITY,
		least: Number.NEGATIVE_INFINITY,
		none: Number.NaN,
		list: [1, -0],
	});
	const text = readFileSync(path, 'utf8');
	expect(text).toContain('"worst": 1e999');
	expect(text.endsWith('}\n')).toBe(true);
	expect(JSON.parse(text)).toEqual({
		worst: Number.POSITIVE_INFINITY,
		least: Number.NEGATIVE_INFINITY,
		none: null,
		list: [1, -0],
	});
});

test('a file that cannot be written is told with its name and why; one that can is not spoken of', async () => {
	const { terminal, kept } = fakeTerminal();
	expect(await writeOutput(join(folder, 'a.json'), terminal, (path) => writeJson(path, 1))).toBe(true);
	expect(kept.err).toBe('');
	expect(await writeOutput(folder, terminal, (path) => writeJson(path, 1))).toBe(false);
	expect(kept.err.replaceAll(/\s+/g, ' ')).toBe(`${folder} could not be written: it is a folder `);
	const late = async (): Promise<void> => {
		throw new Error('no longer there');
	};
	expect(await writeOutput('b', terminal, late)).toBe(false);
	expect(kept.err).toContain('b could not be written: no longer there');
});

test('drives that a result file has no room for are told, and where they can be had', () => {
	const study = (units: number, done = units) => ({
		record: { study: { units, points: 3, states: new Uint8Array(units).fill(unitStates.finished, 0, done) } },
	});
	expect(studyFileRemarks(study(150_000), { json: 'a.json', pack: null })).toEqual([]);
	expect(studyFileRemarks(study(400_000), { json: 'a.json', pack: null })).toEqual([
		expect.stringMatching(/^a\.json has .*a file takes [\d\u202f]+ at \d operating points?\..*--csv.*`changes`/),
	]);
	expect(studyFileRemarks(study(400_000), { json: 'a.json', pack: 'b.zip' })).toEqual([
		expect.stringMatching(/^a\.json and results\.json in b\.zip have /),
	]);
	expect(studyFileRemarks(study(400_000), { json: null, pack: null })).toEqual([]);
	// drives that were never begun take no room
	expect(studyFileRemarks(study(400_000, 1000), { json: 'a.json', pack: null })).toEqual([]);
});
