import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { programDigest } from '../../src/host/node-program.ts';

const folder = mkdtempSync(join(tmpdir(), 'anglespread-'));
afterAll(() => rmSync(folder, { recursive: true }));

test('a program’s digest moves with any file of its own that it reaches, and with no other', () => {
	const write = (name: string, text: string): void => writeFileSync(join(folder, name), text);
	write('worker.js', 'import { a as one } from "./far-1.js";\nimport"./near.js";\nimport fs from "node:fs";\n');
	write('far-1.js', 'export const a = 1;\nexport * from "./near.js";\n');
	write('near.js', 'import "./worker.js";\nexport const b = 2;\n');
	write('apart.js', 'export const c = 3;\n');
	const digest = (): string => programDigest(pathToFileURL(join(folder, 'worker.js')));
	const first = digest();
	expect(first).toMatch(/^[0-9a-f]{64}$/);
	write('apart.js', 'export const c = 4;\n');
	expect(digest()).toBe(first);
	write('near.js', 'import "./worker.js";\nexport const b = 3;\n');
	expect(digest()).not.toBe(first);
});
