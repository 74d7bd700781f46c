import { deflateRawSync } from 'node:zlib';
import { expect, test, vi } from 'vitest';
import { linkTo, readLink } from '../../../src/page/model/kept/scenario-link.ts';
import { readRoute } from '../../../src/page/model/route.ts';
import { demoText } from './kept-fixture.ts';

const codeOf = (link: string): string => readRoute(link)?.details.work ?? '';
const packed = (text: string): string => deflateRawSync(text).toString('base64url');

test.each(['fan-24v.json', 'pump-12v.json', 'rectified-slow.json', 'spindle-48v.json'])(
	'%s comes back from its link with units and seed, in less than 2,000 signs',
	async (file) => {
		const link = await linkTo({ scenario: demoText(file), units: '10 000', seed: 'a & b = c?#é' });
		expect(link.length).toBeLessThan(2000);
		expect(link).toMatch(/^#which-choice\?work=[\w-]+$/);
		const read = await readLink(codeOf(link));
		if ('problem' in read) throw new Error(read.problem);
		expect(JSON.parse(read.scenario)).toEqual(JSON.parse(demoText(file)));
		expect(read).toMatchObject({ units: '10 000', seed: 'a & b = c?#é' });
	},
);

test('a text that is no JSON is carried as it stands, so that its problems can be shown', async () => {
	const read = await readLink(codeOf(await linkTo({ scenario: '{"name": ', units: '1', seed: 's' })));
	expect(read).toEqual({ scenario: '{"name": ', units: '1', seed: 's' });
});

test.each([
	['empty', '', /characters that no link/],
	['with signs of markup', '<script>', /characters that no link/],
	['longer than 100,000 signs', 'A'.repeat(100_001), /too long: 98 kB/],
	['that is not packed', 'AAAA', /cannot be unpacked/],
	['cut in the middle', packed('{"scenario": "x", "units": "1", "seed": "s"}').slice(0, 20), /cannot be unpacked/],
	['of something else', packed('[1, 2, 3]'), /does not hold a scenario/],
	['without a seed', packed('{"scenario": "x", "units": "1"}'), /does not hold a scenario/],
	['with a number for a scenario', packed('{"scenario": 3, "units": "1", "seed": "s"}'), /does not hold a scenario/],
	[
		'of bytes that are no text',
		deflateRawSync(Buffer.from([0xff, 0xfe, 0xfd])).toString('base64url'),
		/cannot be unpacked/,
	],
])('a link %s is refused in words', async (_name, code, words) => {
	expect(await readLink(code)).toEqual({ problem: expect.stringMatching(words) });
});

test('what unpacks to 50 MB from 50 kB is given up after 300 kB', async () => {
	const code = deflateRawSync(Buffer.alloc(50e6)).toString('base64url');
	expect(code.length).toBeLessThan(100_000);
	const reads = vi.spyOn(ReadableStreamDefaultReader.prototype, 'read');
	expect(await readLink(code)).toEqual({ problem: expect.stringMatching(/more than 300 kB/) });
	// pieces of 16 kB or more: all of it would be some 3000
	expect(reads.mock.calls.length).toBeGreaterThan(1);
	expect(reads.mock.calls.length).toBeLessThan(50);
	reads.mockRestore();
});
