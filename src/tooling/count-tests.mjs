/**
 * What vitest's JSON report says, as far as it is read here.
 * @typedef {object} TestReport
 * @property {FileReport[]} testResults one for each file
 *
 * @typedef {object} FileReport
 * @property {string} name path of the file
 * @property {string} status
 * @property {{ fullName: string, status: string, failureMessages?: string[] }[]} assertionResults
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

/**
 * One line for each test that did not pass: its file, its name and the first line of what went wrong.
 *
 * @param {TestReport | undefined} report
 * @param {string} root path that the files' names are given from
 * @returns {string[]}
 */
export function failedTests(report, root) {
	return (report?.testResults ?? []).flatMap(({ name, status, assertionResults }) => {
		const file = name.startsWith(root) ? name.slice(root.length) : name;
		const failed = assertionResults.filter((result) => result.status !== 'passed');
		if (failed.length === 0) return status === 'failed' ? [`${file}: did not load`] : [];
		return failed.map(
			({ fullName, status, failureMessages }) =>
				`${file}: ${fullName}: ${failureMessages?.[0]?.split('\n', 1)[0] ?? status}`,
		);
	});
}
