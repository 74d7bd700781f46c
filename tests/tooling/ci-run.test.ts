import { spawnSync } from 'node:child_process';
import { chmodSync } from 'node:fs';
import { expect, test } from 'vitest';
import { projectRoot } from '../../src/tooling/project.mjs';
import { temporaryFolder } from './temporary-folder.ts';

/** Runs .ci/run with a stand-in for npm. */
function ciRun(npmScript: string): { code: number | null; lines: string[] } {
	const folder = temporaryFolder({ npm: `#!/bin/sh\n${npmScript}\n` });
	chmodSync(`${folder}npm`, 0o755);
	const { status, stdout } = spawnSync(`${projectRoot}.ci/run`, {
		env: { PATH: `${folder}:${process.env.PATH}`, CI: 'true' },
		encoding: 'utf8',
	});
	return { code: status, lines: stdout.trimEnd().split('\n') };
}

test('the counts of npm test are repeated as the last line', () => {
	const { code, lines } = ciRun('[ "$1" = test ] && echo "12 passed, 0 failed" && echo "npm has more to say"');
	expect(code).toBe(0);
	expect(lines).toEqual(['12 passed, 0 failed', 'npm has more to say', '12 passed, 0 failed']);
});

test('a failure gives its exit code', () => {
	const { code, lines } = ciRun('echo "12 passed, 3 failed"; exit 1');
	expect([code, lines.at(-1)]).toEqual([1, '12 passed, 3 failed']);
});

test('no test, no counts, or counts that disagree with exit code 0, is a failure', () => {
	expect(ciRun('echo "0 passed, 0 failed"').code).toBe(1);
	expect(ciRun('echo "4 passed, 1 failed"').code).toBe(1);
	expect(ciRun('exit 7')).toEqual({ code: 7, lines: ['0 passed, 1 failed'] });
	expect(ciRun('exit 0')).toMatchObject({ code: 1, lines: ['0 passed, 1 failed'] });
});
