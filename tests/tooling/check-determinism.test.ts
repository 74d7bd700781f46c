import { expect, test } from 'vitest';
import { indeterminacies } from '../../src/tooling/check-determinism.mjs';

const findings = (text: string) => indeterminacies('shared/planted.ts', text);

/** ECMA-262, 21.3.1 and 21.3.2: constants, and functions not "implementation-approximated"; Math.f16round and sumPrecise are newer. */
const exact =
	'E LN10 LN2 LOG10E LOG2E PI SQRT1_2 SQRT2 abs ceil clz32 floor fround imul max min round sign sqrt trunc'.split(' ');

test('every member of Math that ECMA-262 leaves to the engine is found', () => {
	const members = Object.getOwnPropertyNames(Math);
	expect(members).toContain('log1p');
	for (const member of members) {
		const count = findings(`export const y = Math.${member};`).length;
		expect(`${member} ${count}`).toBe(`${member} ${exact.includes(member) ? 0 : 1}`);
	}
});

test('a planted call is shown with file, line and column', () => {
	const text = 'export function f(x: number): number {\n\treturn 2 * Math.exp(x);\n}\n';
	expect(findings(text)).toEqual([
		'shared/planted.ts:2:13 Math.exp differs between engines: use @stdlib/math-base-special-*',
	]);
});

test('Math under another name or a computed member is found', () => {
	for (const text of [
		'const { exp } = Math;',
		'const m = Math; m.exp(1);',
		"Math['exp'](1);",
		'globalThis.Math.exp(1);',
		"globalThis['Math'].exp(1);",
		'const { Math: m } = globalThis;',
		'[1].map(Math.exp);',
		'Math?.exp(1);',
	]) {
		expect(findings(text), text).not.toEqual([]);
	}
});

test('powers and the clock are found; exact powers of two and mere words are not', () => {
	for (const text of ['x ** 2;', 'x **= 3;', '2 ** x;', '10 ** -9;', '2 ** 0.5;', 'Date.now();', 'new Date();']) {
		expect(findings(text), text).toHaveLength(1);
	}
	for (const text of ['2 ** -53;', '2 ** 32;', '// Math.exp(x) ** 2', "'Math.exp(1)';", 'x.date;']) {
		expect(findings(text), text).toEqual([]);
	}
});
