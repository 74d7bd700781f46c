import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { StudyResult } from '../../shared/study/result.ts';
import { ensureBuilt } from '../../src/tooling/ensure-built.mjs';
import { projectRoot } from '../../src/tooling/project.mjs';

let folder: string;
beforeAll(async () => {
	await ensureBuilt('command-line');
	folder = mkdtempSync(join(tmpdir(), 'anglespread-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

test('Ctrl-C after two seconds of a study ends its process with 130, the partial result printed and written', async () => {
	const json = join(folder, 'out.json');
	const args = ['src/tooling/run-command.mjs', 'study', 'scenarios/fan-24v.json', '--units', '1000000', '--json', json];
	const child = spawn(process.execPath, args, { cwd: projectRoot });
	let out = '';
	let err = '';
	child.stdout.on('data', (text) => {
		out += text;
	});
	child.stderr.on('data', (text) => {
		err += text;
	});
	setTimeout(() => child.kill('SIGINT'), 2000);
	const code = await new Promise((resolve) => child.on('close', resolve));
	expect({ code, err }).toEqual({ code: 130, err: '' });
	expect(out).toContain('PARTIAL RESULT');
	const { provenance } = JSON.parse(readFileSync(json, 'utf8')) as StudyResult;
	expect(provenance.partial).toBe(true);
	expect(provenance.units.asked).toBe(1_000_000);
});
