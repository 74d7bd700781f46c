import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readJson } from '../../shared/scenario/read-json.ts';

const message = (text: string) =>
	readJson(text)
		.problems.map((problem) => problem.message)
		.join('; ');

describe('readJson', () => {
	test('reads what JSON.parse reads, for any JSON', () => {
		fc.assert(
			fc.property(fc.json({ maxDepth: 6 }), (text) => {
				const { value, problems } = readJson(text);
				expect(JSON.stringify(value)).toBe(JSON.stringify(JSON.parse(text)));
				expect(problems).toEqual([]);
			}),
		);
	});

	test('accepts a damaged text exactly when JSON.parse does', () => {
		const sign = fc.constantFrom(...'{}[],:"\\ \n0-.eE+tfn1a\u0007'.split(''));
		fc.assert(
			fc.property(fc.json({ maxDepth: 3 }), fc.nat(), sign, fc.nat(2), (text, place, inserted, removed) => {
				const at = place % (text.length + 1);
				const damaged = text.slice(0, at) + inserted + text.slice(at + removed);
				let parsed: unknown;
				try {
					parsed = JSON.parse(damaged);
				} catch {
					parsed = undefined;
				}
				// JSON.parse turns 1e999 into Infinity, which a scenario must not hold; stringify shows it as null
				if (/\d[eE]\+?\d{3}/.test(damaged)) return;
				expect(readJson(damaged).value !== undefined).toBe(parsed !== undefined);
			}),
			{ numRuns: 2000 },
		);
	});

	test.each([
		['{\n  "a": 1,\n  "b" 2\n}', 'line 3, column 7: expected a colon'],
		['{"a": 1,}', 'line 1, column 9: expected a name in double quotes'],
		['[1 2]', 'line 1, column 4: expected a comma or ]'],
		['{"a": NaN}', 'line 1, column 7: expected a value'],
		['{"a": 1e999}', 'line 1, column 7: expected a value: a number within'],
		["{'a': 1}", 'line 1, column 2: expected a name in double quotes'],
		['"open', 'line 1, column 1: expected a text that ends with "'],
		['', 'line 1, column 1: expected a value'],
		['{} {}', 'line 1, column 4: expected nothing more'],
		['{"a": tru}', 'line 1, column 7: expected a value'],
	])('%j is refused with %s', (text, words) => {
		expect(message(text)).toContain(words);
	});

	test('21 levels of nesting are refused, 20 are read; 100,000 brackets do no harm', () => {
		expect(message('['.repeat(20) + ']'.repeat(20))).toBe('');
		expect(message('['.repeat(22) + ']'.repeat(22))).toContain('no more than 20 levels');
		expect(message('['.repeat(100_000))).toContain('no more than 20 levels');
	});

	test('256 kB are read, more are refused', () => {
		expect(message(`"${'a'.repeat(256 * 1024 - 2)}"`)).toBe('');
		expect(message(`"${'a'.repeat(256 * 1024)}"`)).toBe('is too long: 257 kB, at most 256 kB are read');
	});

	test('a name stated twice is a problem with its path', () => {
		expect(readJson('{"a": {"b": 1, "b": 2}}').problems).toEqual([
			{ path: 'a.b', value: '2', message: 'is stated twice; keep one of the two' },
		]);
	});

	test('__proto__ is a name like any other', () => {
		const { value } = readJson('{"__proto__": {"polluted": true}}');
		expect(Object.keys(value as object)).toEqual(['__proto__']);
		expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
	});
});
