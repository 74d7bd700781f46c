import { expect, test } from 'vitest';
import { type GateCheck, gateLines } from '../../src/command-line/gate.ts';
import { plainText } from '../../src/command-line/plain-text.ts';
import { testReport } from '../../src/command-line/test-report.ts';

const ground = {
	version: '1.2.3',
	seed: 'a & "b" <c>',
	scenario: 'Blower — 24 V\u0007',
	scenarioDigest: 'd'.repeat(64),
	resultDigest: 'e'.repeat(64),
	partial: false,
};
const checks: readonly GateCheck[] = [
	{ name: 'half-bus meets the requirement', outcome: 'holds', sentence: 'Half-bus holds: 991 of 1000 drives.' },
	{ name: 'virtual neutral ≤ 5°', outcome: 'fails', sentence: 'Fails: 10⁻⁴, “quoted” & <marked>\nagain' },
	{ name: 'third', outcome: 'undecided', sentence: 'Undecided.' },
];

test('the summary for a build log is ASCII of at most 80 columns: the answer and the exit code in its first line, then each check', () => {
	const text = gateLines('study', checks, ground, 1);
	expect(text).toMatch(/^[\n\x20-\x7e]+$/);
	expect(text.split('\n').every((line) => line.length <= 80)).toBe(true);
	expect(text).toMatch(/^\nRelease gate \(study\): NOT PASSED, 2 of 3 not shown to hold; exit code 1\n/);
	expect(text).toContain('  holds      half-bus meets the requirement. Half-bus holds: 991 of 1000 drives.\n');
	expect(text).toContain('  fails      virtual neutral <= 5 deg. Fails: 10^-4, "quoted" & <marked> again\n');
	expect(gateLines('study', checks.slice(0, 1), ground, 0)).toContain('(study): PASSED; exit code 0');
	expect(gateLines('study', checks.slice(0, 1), { ...ground, partial: true }, 130)).toContain('INTERRUPTED');
	expect(plainText('−1.2° … 3 µs, 4 × 10⁻¹², 5 kΩ, ✓')).toBe('-1.2 deg ... 3 us, 4 x 10^-12, 5 kOhm, ?');
});

/** Elements of the XML, with their attributes as a reader would have them; throws where it is not well-formed. */
function readXml(
	text: string,
): { readonly name: string; readonly attributes: Record<string, string>; depth: number }[] {
	const found: { name: string; attributes: Record<string, string>; depth: number }[] = [];
	const open: string[] = [];
	const rest = text
		.replace(/^<\?xml version="1.0" encoding="UTF-8"\?>/, '')
		.replaceAll(
			/<(\/?)([a-z]+)((?: [a-zA-Z]+="[^"<]*")*)(\/?)>/g,
			(_, end: string, name: string, written: string, isEmpty: string) => {
				if (end !== '') expect(open.pop()).toBe(name);
				else {
					const attributes = [...written.matchAll(/ ([a-zA-Z]+)="([^"]*)"/g)].map(([, key = '', value = '']) => {
						expect(value).not.toMatch(/&(?!amp;|lt;|quot;|#10;)/);
						const plain = value.replaceAll('&#10;', '\n').replaceAll('&quot;', '"').replaceAll('&lt;', '<');
						return [key, plain.replaceAll('&amp;', '&')];
					});
					found.push({ name, attributes: Object.fromEntries(attributes), depth: open.length });
					if (isEmpty === '') open.push(name);
				}
				return '';
			},
		);
	expect({ left: rest.trim(), open }).toEqual({ left: '', open: [] });
	return found;
}

test('the test report is well-formed XML: a case each check, failures with type and sentence, counts that agree, every sign kept', () => {
	const elements = readXml(testReport('study', checks, ground));
	expect(elements.map(({ name, depth }) => `${depth} ${name}`)).toEqual([
		'0 testsuites',
		'1 testsuite',
		'2 properties',
		...Array(4).fill('3 property'),
		'2 testcase',
		'2 testcase',
		'3 failure',
		'2 testcase',
		'3 failure',
		'2 testcase',
	]);
	const of = (name: string) => elements.filter((one) => one.name === name).map(({ attributes }) => attributes);
	expect(of('testsuite')).toEqual([
		{ name: 'anglespread study: Blower — 24 V', tests: '4', failures: '2', errors: '0', skipped: '0' },
	]);
	expect(of('failure')).toEqual([
		{ type: 'fails', message: 'Fails: 10⁻⁴, “quoted” & <marked>\nagain' },
		{ type: 'undecided', message: 'Undecided.' },
	]);
	expect(of('property')).toContainEqual({ name: 'seed', value: 'a & "b" <c>' });
	const cut = readXml(testReport('study', checks.slice(0, 1), { ...ground, partial: true }));
	expect(cut.find(({ name }) => name === 'error')?.attributes).toMatchObject({ type: 'interrupted' });
	expect(cut[0]?.attributes).toEqual({ tests: '2', failures: '0', errors: '1' });
});
