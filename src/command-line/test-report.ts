import type { GateCheck, GateGround } from './gate.ts';

/**
 * A gate's checks as the XML of test suites and cases that continuous-integration
 * servers read; it has no specification of its own, so only what all readers
 * know is used: testsuites, testsuite, properties, testcase, failure, error. An
 * undecided check is a failure of type "undecided", an interruption an error.
 */
export function testReport(command: string, checks: readonly GateCheck[], ground: GateGround): string {
	const { partial, seed, version, scenario, scenarioDigest, resultDigest } = ground;
	const name = `anglespread ${command}`;
	const cases = checks.map((check) => {
		const named = `\t\t<testcase classname="${attribute(name)}" name="${attribute(check.name)}"`;
		return check.outcome === 'holds'
			? `${named}/>`
			: `${named}>\n\t\t\t<failure type="${check.outcome}" message="${attribute(check.sentence)}"/>\n\t\t</testcase>`;
	});
	const ended = `\t\t<testcase classname="${attribute(name)}" name="ran to its end"`;
	cases.push(
		partial
			? `${ended}>\n\t\t\t<error type="interrupted" message="interrupted: what finished shows nothing"/>\n\t\t</testcase>`
			: `${ended}/>`,
	);
	const failures = checks.filter(({ outcome }) => outcome !== 'holds').length;
	const counts = `tests="${cases.length}" failures="${failures}" errors="${partial ? 1 : 0}"`;
	const properties = { version, seed, scenarioDigest, ...(resultDigest !== undefined && { resultDigest }) };
	return `${[
		'<?xml version="1.0" encoding="UTF-8"?>',
		`<testsuites ${counts}>`,
		`\t<testsuite name="${attribute(`${name}: ${scenario}`)}" ${counts} skipped="0">`,
		'\t\t<properties>',
		...Object.entries(properties).map(([key, value]) => `\t\t\t<property name="${key}" value="${attribute(value)}"/>`),
		'\t\t</properties>',
		...cases,
		'\t</testsuite>',
		'</testsuites>',
	].join('\n')}\n`;
}

/** A text as the value of an attribute (XML 1.0, section 2.3); what XML has no place for is left out. */
const attribute = (text: string): string =>
	text
		.replaceAll(/[^\t\n\r\x20-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '')
		.replaceAll('&', '&amp;')
		.replaceAll('<', '&lt;')
		.replaceAll('"', '&quot;')
		.replaceAll(/[\t\n\r]/g, (sign) => `&#${sign.charCodeAt(0)};`);
