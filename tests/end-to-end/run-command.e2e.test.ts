import { spawnSync } from 'node:child_process';
import { closeSync, existsSync, mkdtempSync, openSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { ensureBuilt } from '../../src/tooling/ensure-built.mjs';
import { projectRoot } from '../../src/tooling/project.mjs';

/** As `npm run --silent NAME -- …` does. */
function run(...args: string[]): { status: number | null; stdout: string; stderr: string } {
	return spawnSync(process.execPath, ['src/tooling/run-command.mjs', ...args], { cwd: projectRoot, encoding: 'utf8' });
}

beforeAll(async () => {
	await ensureBuilt('command-line');
});

test('a command runs with its arguments, and nothing but its own words is on its output', () => {
	const { status, stdout, stderr } = run('study', 'scenarios/fan-24v.json', '--units', '20', '--seed', 'launcher');
	expect({ status, stderr }).toEqual({ status: 0, stderr: expect.not.stringContaining('Building') });
	expect(stdout.toLowerCase()).toContain('virtual neutral');
	expect(stdout).not.toMatch(/Building|Installing/);
});

test('the exit code of a command is the launcher’s: 2 for bad input', () => {
	const { status, stdout, stderr } = run('study', 'scenarios/not-there.json');
	expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
	expect(stderr).toContain('not-there.json');
});

test('a command that there is not gives 1 and names it', () => {
	expect(run('nothing-of-the-kind')).toMatchObject({ status: 1, stdout: '' });
	expect(run('nothing-of-the-kind').stderr).toContain('nothing-of-the-kind');
});

// a device that is always full; other systems have none
test.runIf(existsSync('/dev/full'))(
	'an output that cannot be written is told in words, and files are written all the same: 1',
	() => {
		const json = join(mkdtempSync(join(tmpdir(), 'anglespread-')), 'kept.json');
		const full = openSync('/dev/full', 'w');
		const { status, stderr } = spawnSync(
			process.execPath,
			['src/tooling/run-command.mjs', 'study', 'scenarios/fan-24v.json', '--units', '4', '--json', json],
			{ cwd: projectRoot, encoding: 'utf8', stdio: ['ignore', full, 'pipe'] },
		);
		closeSync(full);
		expect(status).toBe(1);
		expect(stderr).toContain('The output could not be written: the disk is full.');
		expect(stderr).not.toMatch(/\bat \S+ \(/);
		expect(JSON.parse(readFileSync(json, 'utf8')).provenance.units.finished).toBe(4);
	},
);
