import { expect, test } from 'vitest';
import { countTests } from '../../src/tooling/count-tests.mjs';

const file = (status: string, ...tests: string[]) => ({
	status,
	assertionResults: tests.map((each) => ({ status: each })),
});

test('tests are counted over all files', () => {
	const report = { testResults: [file('passed', 'passed', 'passed'), file('failed', 'passed', 'failed')] };
	expect(countTests(report, 1)).toEqual({ passed: 3, failed: 1 });
});

test('a skipped test counts as failed', () => {
	const report = { testResults: [file('passed', 'passed', 'skipped', 'pending', 'todo')] };
	expect(countTests(report, 0)).toEqual({ passed: 1, failed: 3 });
});

test('a file that did not load counts as one failure', () => {
	expect(countTests({ testResults: [file('failed'), file('passed', 'passed')] }, 1)).toEqual({ passed: 1, failed: 1 });
});

test('a run without tests, without report, or that ends badly after good tests, has failed', () => {
	expect(countTests({ testResults: [] }, 0)).toEqual({ passed: 0, failed: 1 });
	expect(countTests(undefined, 0)).toEqual({ passed: 0, failed: 1 });
	expect(countTests({ testResults: [file('passed', 'passed')] }, 1)).toEqual({ passed: 1, failed: 1 });
});
