import fc from 'fast-check';
import { expect, test } from 'vitest';
import { canonicalJson } from '../../shared/scenario/canonical-json.ts';
import { scenarioDigest, sha256 } from '../../shared/scenario/digest.ts';
import { readScenario } from '../../shared/scenario/read-scenario.ts';

test('SHA-256 of "abc" is the example of FIPS 180-4', async () => {
	// From memory: NIST's worked examples for FIPS 180-4.
	expect(await sha256(new TextEncoder().encode('abc'))).toBe(
		'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
	);
	expect(await sha256(new Uint8Array(0))).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855');
});

test('canonical JSON sorts names, leaves out what is absent, and is JSON', () => {
	expect(canonicalJson({ b: [1, { d: 'x', c: null }], a: undefined, A: 1e-7 })).toBe(
		'{"A":1e-7,"b":[1,{"c":null,"d":"x"}]}',
	);
	expect(() => canonicalJson({ a: Number.NaN })).toThrow(RangeError);
	fc.assert(
		fc.property(fc.jsonValue(), (value) => {
			expect(JSON.parse(canonicalJson(value))).toEqual(JSON.parse(JSON.stringify(value)));
		}),
	);
});

test('the digest sees values, not the way they are written', async () => {
	const digest = (speed: unknown) => {
		const read = readScenario(JSON.stringify({ name: 'x', points: [{ torque: 0.1, speed, name: 'p' }] }));
		if ('problems' in read) throw new Error(JSON.stringify(read.problems));
		return scenarioDigest(read.scenario);
	};
	expect(await digest('900 rpm')).toBe(await digest(900));
	expect(await digest(900)).not.toBe(await digest(901));
});
