/**
 * What vitest's JSON report says, as far as it is read here.
 * @typedef {object} TestReport
 * @property {{ assertionResults: { status: string }[], status: string }[]} testResults one for each file
 */

/**
 * Counts one run of tests. Whatever did not pass counts as failed: a skipped
 * test, a file that did not load, a run without tests, one that left no report.
 *
 * @param {TestReport | undefined} report undefined where the run left none
 * @param {number} exitCode of the run
 * @returns {{ passed: number, failed: number }}
 */
export function countTests(report, exitCode) {
	let passed = 0;
	let failed = 0;
	for (const { assertionResults, status } of report?.testResults ?? []) {
		const filePassed = assertionResults.filter((result) => result.status === 'passed').length;
		const fileFailed = assertionResults.length - filePassed;
		passed += filePassed;
		failed += status === 'failed' ? Math.max(1, fileFailed) : fileFailed;
	}
	if (failed === 0 && (passed === 0 || exitCode !== 0)) failed = 1;
	return { passed, failed };
}
