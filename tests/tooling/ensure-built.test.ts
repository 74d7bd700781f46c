import { renameSync, utimesSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { sourcesDigest } from '../../src/tooling/ensure-built.mjs';
import { temporaryFolder } from './temporary-folder.ts';

const files = { 'src/page/main.ts': 'one', 'shared/drive/drive.ts': 'two', 'vite.config.ts': 'three' };

test('a touched file asks for no build; a changed, renamed, new or moved byte does', () => {
	const root = temporaryFolder(files);
	const before = sourcesDigest(root);
	utimesSync(`${root}src/page/main.ts`, 0, 0);
	expect(sourcesDigest(root)).toBe(before);

	const seen = new Set([before]);
	const isNew = () => {
		const digest = sourcesDigest(root);
		const fresh = !seen.has(digest);
		seen.add(digest);
		return fresh;
	};
	writeFileSync(`${root}shared/drive/drive.ts`, 'Two');
	expect(isNew()).toBe(true);
	writeFileSync(`${root}vite.config.ts`, 'Three');
	expect(isNew()).toBe(true);
	renameSync(`${root}src/page/main.ts`, `${root}src/page/start.ts`);
	expect(isNew()).toBe(true);
	writeFileSync(`${root}src/page/empty.ts`, '');
	expect(isNew()).toBe(true);
	writeFileSync(`${root}src/page/empty.ts`, 'o');
	writeFileSync(`${root}src/page/start.ts`, 'ne');
	expect(isNew()).toBe(true);
});

test('what is not a source asks for no build', () => {
	const root = temporaryFolder(files);
	const before = sourcesDigest(root);
	writeFileSync(`${root}README.md`, 'words');
	expect(sourcesDigest(root)).toBe(before);
});
