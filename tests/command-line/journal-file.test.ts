import { mkdtempSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, expect, test } from 'vitest';
import { runShard, type ShardResult } from '../../shared/study/run-shard.ts';
import { shardBytes } from '../../shared/study/shard-bytes.ts';
import { type OpenJournal, openJournal } from '../../src/command-line/journal-file.ts';
import { shardLine } from '../../src/command-line/journal-record.ts';
import { smallScenario } from '../study/small-scenario.ts';

const folder = mkdtempSync(join(tmpdir(), 'anglespread-'));
afterAll(() => rmSync(folder, { recursive: true }));

const scenario = smallScenario({ points: [{ name: 'fast', speed: 6000, torque: 0.05 }] });
const plan = { scenario, seed: 'kept', compensation: { halfBus: 60e-6, virtualNeutral: 60e-6 } };
const shard = (from: number, to: number): ShardResult => runShard(plan, from, to);
const kept = [shard(0, 2), shard(4, 5), shard(2, 4)];
const broken: ShardResult = {
	...shard(5, 6),
	failures: [{ unit: 5, message: 'made up, with “signs”\nand a new line' }],
};

const head = {
	version: '1.0',
	engine: 'e'.repeat(64),
	scenario: 'small',
	scenarioDigest: 'd'.repeat(64),
	seed: 'kept',
};
const path = join(folder, 'study.journal');

function opened(file = path, of = head): OpenJournal {
	const found = openJournal(file, of, 1);
	if ('problem' in found) throw new Error(found.problem);
	return found.journal;
}

/** What a journal holds of units 0 to 5, and what it says of itself. */
function read(file = path): { readonly shards: readonly ShardResult[]; readonly remarks: readonly string[] } {
	const journal = opened(file);
	const found = { shards: [...journal.shards(0, 6)], remarks: journal.remarks };
	journal.close();
	return found;
}

beforeEach(() => {
	rmSync(path, { force: true });
	const journal = opened();
	for (const one of [...kept, broken]) journal.keep(one);
	journal.close();
});

/** Every number and word of some shards, in a form that is quick to compare. */
const asLines = (shards: Iterable<ShardResult>): string[] => [...shards].map(shardLine);
const inOrder = asLines([kept[0], kept[2], kept[1], broken] as ShardResult[]);

test('shards come back to the last bit, by rising index, with infinite figures and messages of failed drives', () => {
	const lost = shard(0, 2);
	lost.columns.unitError[1] = Number.POSITIVE_INFINITY;
	rmSync(path);
	const journal = opened();
	journal.keep(lost);
	journal.close();
	const { shards, remarks } = read();
	expect(remarks).toEqual([]);
	expect(shards.map(({ from, to, failures }) => ({ from, to, failures }))).toEqual([
		{ from: 0, to: 2, failures: lost.failures },
	]);
	// counts come back in 32 bits, however narrow the run had kept them
	expect(shards.map(shardBytes)).toEqual([shardBytes(lost)]);
});

test('only shards that lie within the units asked for come back, and of two over one another one', () => {
	const journal = opened();
	journal.keep(shard(1, 3));
	journal.close();
	const again = opened();
	const places = (from: number, to: number): number[][] => [...again.shards(from, to)].map((one) => [one.from, one.to]);
	expect(again.drives(6)).toBe(6);
	expect(again.drives(3)).toBe(2);
	expect(places(0, 6)).toEqual([
		[0, 2],
		[2, 4],
		[4, 5],
		[5, 6],
	]);
	expect(places(0, 3)).toEqual([[0, 2]]);
	expect(places(1, 5)).toEqual([
		[1, 3],
		[4, 5],
	]);
	again.close();
});

test('cut off at any byte, it gives the whole records before the cut, says what was torn, and takes new ones after them', () => {
	const whole = readFileSync(path);
	const ends = [...whole.keys()].filter((at) => whole[at] === 10).map((at) => at + 1);
	const asKept = asLines([...kept, broken]);
	// every byte of the first line and about each line's end; else every 97th
	const cuts = [...Array(whole.length + 1).keys()].filter(
		(at) => at < (ends[0] as number) + 3 || at % 311 === 0 || ends.some((end) => Math.abs(end - at) < 3),
	);
	for (const cut of cuts) {
		writeFileSync(path, whole.subarray(0, cut));
		const lines = ends.filter((end) => end <= cut).length;
		const isTorn = cut > 0 && !ends.includes(cut);
		const journal = opened();
		expect([cut, journal.remarks.length]).toEqual([cut, isTorn ? 1 : 0]);
		expect(statSync(path).size).toBe(lines === 0 ? ends[0] : ends[lines - 1]);
		expect(new Set(asLines(journal.shards(0, 6)))).toEqual(new Set(asKept.slice(0, Math.max(0, lines - 1))));
		if (lines < 5) journal.keep(broken);
		journal.close();
		expect(asLines(read().shards).at(-1)).toBe(asKept[3]);
	}
	expect(cuts.length).toBeGreaterThan(350);
});

test('any single byte changed drops the record it is in and no other, or has the file refused; no figure is ever wrong', () => {
	const whole = readFileSync(path);
	const firstLine = whole.indexOf(10) + 1;
	let dropped = 0;
	let refused = 0;
	for (let at = 0; at < whole.length; at += at < firstLine ? 1 : 53) {
		const bytes = Buffer.from(whole);
		bytes[at] = (bytes[at] as number) ^ (1 << (at % 8));
		writeFileSync(path, bytes);
		const found = openJournal(path, head, 1);
		if ('problem' in found) {
			expect(at).toBeLessThan(firstLine);
			expect(readFileSync(path)).toEqual(bytes);
			refused += 1;
			continue;
		}
		const { journal } = found;
		for (const line of asLines(journal.shards(0, 6))) expect(inOrder).toContain(line);
		expect([at, journal.remarks.join()]).toEqual([at, expect.stringMatching(/Damaged records|torn/)]);
		expect(journal.drives(6)).toBeLessThan(6);
		journal.close();
		dropped += 1;
	}
	expect(refused).toBe(firstLine);
	expect(dropped).toBeGreaterThan(100);
});

test('the journal of another scenario, seed or engine, a newer one, and a file of another kind are refused with what to do, and left as they are', () => {
	const whole = readFileSync(path, 'utf8');
	const problem = (of: Partial<typeof head>): string | null => {
		const found = openJournal(path, { ...head, ...of }, 1);
		return 'problem' in found ? found.problem : null;
	};
	expect(problem({ scenario: 'other', scenarioDigest: 'f'.repeat(64) })).toMatch(
		/another scenario \(“small”, digest dddddddddddd….*“other”.*go on with that scenario as it was, or name another file/,
	);
	expect(problem({ seed: 'new' })).toBe(
		'is the journal of seed “kept”, not “new”: go on with --seed "kept", or name another file',
	);
	expect(problem({ engine: 'f'.repeat(64) })).toMatch(/another engine .*go on with that one, or name another file/);
	expect(problem({ version: '1.1' })).toMatch(/another engine \(version 1.0, .*this is version 1.1/);
	expect(problem({ scenario: 'renamed' })).toBeNull();
	expect(readFileSync(path, 'utf8')).toBe(whole);

	writeFileSync(path, whole.replace('"formatVersion":1', '"formatVersion":12'));
	expect(problem({})).toMatch(/newer version \(journals of form 12; this one reads 1\): go on with that version/);
	for (const text of ['{"name":"a scenario"}', 'notes\n', '{"format":"anglespread-study"}']) {
		writeFileSync(path, text);
		expect(problem({})).toBe('is not a journal: name another file, or none yet there');
		expect(readFileSync(path, 'utf8')).toBe(text);
	}
	truncateSync(path);
	expect(problem({})).toBeNull();
});
