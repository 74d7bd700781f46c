import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { readInput } from '../../src/command-line/input-file.ts';

const folder = mkdtempSync(join(tmpdir(), 'anglespread-'));
afterAll(() => rmSync(folder, { recursive: true }));

function read(bytes: Buffer) {
	const path = join(folder, 'input');
	writeFileSync(path, bytes);
	const input = readInput(path, 'FILE');
	return 'text' in input ? input.text : input.problems.map(({ path: word, message }) => `${word} ${message}`).join();
}

test('text is UTF-8, or UTF-16 where its byte order mark says so', () => {
	const text = '{"name": "Lüfter, 75 µs, 22 kΩ"}';
	const marked = Buffer.from(`\ufeff${text}`, 'utf16le');
	expect(read(Buffer.from(text))).toBe(text);
	expect(read(Buffer.from(`\ufeff${text}`))).toBe(`\ufeff${text}`);
	expect(read(marked)).toBe(`\ufeff${text}`);
	expect(read(Buffer.from(marked).swap16())).toBe(`\ufeff${text}`);
});

test('bytes that are no text are refused, not replaced', () => {
	const words = 'FILE is no text in UTF-8: it is of another kind or encoding, or damaged';
	expect(read(Buffer.from('75 µs', 'latin1'))).toBe(words);
	expect(read(Buffer.from([0x50, 0x4b, 0x03, 0x04, 0x81, 0xff]))).toBe(words);
});
