import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { figureDifferences } from '../../shared/results/figure-differences.ts';
import { jsonText } from '../../shared/results/json-text.ts';
import { type KeptResult, readResult } from '../../shared/results/read-result.ts';
import { contentsDigest, resultFileText } from '../../shared/results/result-file.ts';
import type { UnitRecord } from '../../shared/study/point-change.ts';
import type { StudyResult } from '../../shared/study/result.ts';
import { studyResult } from '../page/study-fixture.ts';
import { studyOf } from '../study/study-of.ts';

let made: { result: StudyResult; record: UnitRecord };
let text: string;

beforeAll(async () => {
	// unit 1 of the faster point has lost lock, unit 3 was not simulated
	made = await studyOf(6, { failed: 3, lost: 1 });
	text = await resultFileText(made.result, made.record);
});

const accepted = async (of: string): Promise<KeptResult> => {
	const reading = await readResult(of);
	if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
	return reading;
};
const refusal = async (of: string): Promise<string> => {
	const reading = await readResult(of);
	if (!('problems' in reading)) return 'read';
	return reading.problems.map(({ path, value, message }) => `${path} ${value} ${message}`).join('\n');
};
const edited = (change: (file: Record<string, unknown>) => void): string => {
	const file = JSON.parse(text) as Record<string, unknown>;
	change(file);
	return jsonText(file);
};

test('a result is read as it was made: every figure, infinite ones too, and every column of its 6 units', async () => {
	const { result, scenario, record } = await accepted(text);
	expect(result).toEqual(made.result);
	expect(scenario).toEqual(made.record.plan.scenario);
	expect(record).toEqual(made.record);
	expect(result.points[1]?.choices.halfBus.worst[0]).toMatchObject({ unit: 1, error: Number.POSITIVE_INFINITY });
});

test('what only breaks lines otherwise is the same file', async () => {
	const { result } = await accepted(text.replaceAll(/\n\t*/g, '\r\n '));
	expect(result).toEqual(made.result);
});

describe('a file that is refused says why and what to do', () => {
	test.each([
		['nothing in it', () => '', /\(file\) .* is not JSON; take it again .* or run the study again/],
		['its end is missing', () => text.slice(0, -400), /\(file\) .* cut short or damaged/],
		['something else', () => '{"name": "fan"}', /format .* is not that of a result; give the file that `study --json`/],
		['a list', () => '[]', /format .* is not that of a result/],
		['null', () => 'null', /format .* is not that of a result/],
		[
			'the result of grades',
			() => '{"format": "anglespread-grades"}',
			/format anglespread-grades is of another command/,
		],
		[
			'one version too new',
			() => edited((file) => Object.assign(file, { formatVersion: 4 })),
			/formatVersion 4 is newer .* reads versions up to 3: read it with a newer program \(it was written by version 0\.1\.0\), or run the study again/,
		],
		['no version', () => edited((file) => delete file.formatVersion), /formatVersion {2}is none of 1, 2, 3/],
		[
			'one figure changed',
			() => edited((file) => Object.assign((file as unknown as StudyResult).verdict.halfBus, { passed: 6 })),
			/digest [0-9a-f]+… does not fit .* damaged or was edited/,
		],
		['no digest', () => edited((file) => delete file.digest), /digest .* does not fit/],
		[
			'nested without end',
			() => `{"format":"anglespread-study","formatVersion":2,"x":${'['.repeat(9999)}${']'.repeat(9999)}}`,
			/digest/,
		],
	])('%s', async (_, broken, words) => {
		expect(await refusal(broken())).toMatch(words);
	});
});

test('a scenario or units that are not those of the figures are refused, also under a digest that fits', async () => {
	const signed = async (change: (file: Record<string, unknown>) => void): Promise<string> => {
		const { digest: _, ...contents } = JSON.parse(edited(change)) as Record<string, unknown>;
		return jsonText({ ...contents, digest: await contentsDigest(contents) });
	};
	expect(await refusal(await signed(() => {}))).toBe('read');
	expect(await refusal(await signed(({ scenario }) => Object.assign(scenario as object, { name: 'another' })))).toMatch(
		/^scenario {2}is not the one that the figures are of; take it again/,
	);
	const { record } = await studyOf(6, { seed: 'others' });
	const other = JSON.parse(await resultFileText(made.result, record)) as { units: unknown };
	expect(await refusal(await signed((file) => Object.assign(file, { units: other.units })))).toMatch(
		/^units {2}are not those that the figures are of; take it again/,
	);
});

test('of 200 single changed signs anywhere in the file none yields another result', async () => {
	await fc.assert(
		fc.asyncProperty(fc.nat(text.length - 1), fc.integer({ min: 0, max: 6 }), async (at, bit) => {
			const changed = String.fromCharCode(text.charCodeAt(at) ^ (1 << bit));
			const reading = await readResult(text.slice(0, at) + changed + text.slice(at + 1));
			// white space for white space says the same
			if ('result' in reading) expect(reading.result).toEqual(made.result);
		}),
		{ numRuns: 200, seed: 5 },
	);
});

test('a file of version 2 is read, without how the choices differ drive by drive; figures in both are held side by side', async () => {
	const file = JSON.parse(text) as {
		digest?: string;
		formatVersion: number;
		points: { paired: { differences?: object } }[];
	};
	file.formatVersion = 2;
	delete file.digest;
	for (const { paired } of file.points) delete paired.differences;
	const { result, record } = await accepted(jsonText({ ...file, digest: await contentsDigest(file) }));
	expect(record).toEqual(made.record);
	expect(made.result.points[0]?.paired.differences?.counts.length).toBeGreaterThan(0);
	expect(result.points[0]?.paired.differences).toBeUndefined();
	const { figures, differences } = figureDifferences(result, made.result);
	expect(figures).toBeGreaterThan(100);
	expect(differences).toEqual([]);
	// within one version a figure that one lacks is a difference
	expect(figureDifferences({ ...result, formatVersion: 3 }, made.result).differences.length).toBeGreaterThan(0);
});

describe('version 1, which kept figures alone', () => {
	const older = (result: StudyResult): string => JSON.stringify({ ...result, formatVersion: 1 });

	test('is read; the error of a drive that lost lock, null there, is infinite again', async () => {
		const { result, record } = await accepted(older(made.result));
		expect(record).toBeNull();
		expect(result.formatVersion).toBe(1);
		expect(result.points[1]?.choices.halfBus.worst[0]).toMatchObject({ unit: 1, error: Number.POSITIVE_INFINITY });
		expect(result.points[1]?.choices.halfBus.unitError.q95).toBe(made.result.points[1]?.choices.halfBus.unitError.q95);
		expect(result.verdict).toEqual(made.result.verdict);
	});

	test('is refused with the place where something is missing', async () => {
		const { requirement: _, ...without } = studyResult();
		expect(await refusal(older(without as StudyResult))).toMatch(
			/^requirement {2}is not what version 1 of the file has there/,
		);
	});
});
