import { expect, test } from 'vitest';
import { countTests, failedTests } from '../../src/tooling/count-tests.mjs';

const file = (status: string, ...tests: string[]) => ({
	name: '/project/tests/a.test.ts',
	status,
	assertionResults: tests.map((each) => ({
		fullName: `a ${each} test`,
		status: each,
		...(each === 'failed' && { failureMessages: ['Error: not so\n    at somewhere'] }),
	})),
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

test('every test that did not pass is named with its file and reason', () => {
	const report = {
		testResults: [file('failed', 'passed', 'failed', 'skipped'), file('failed'), file('passed', 'passed')],
	};
	expect(failedTests(report, '/project/')).toEqual([
		'tests/a.test.ts: a failed test: Error: not so',
		'tests/a.test.ts: a skipped test: skipped',
		'tests/a.test.ts: did not load',
	]);
	expect(failedTests(undefined, '/project/')).toEqual([]);
});
