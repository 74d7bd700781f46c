import { expect, test } from 'vitest';
import { reasonToInstall } from '../../src/tooling/ensure-installed.mjs';
import { projectRoot } from '../../src/tooling/project.mjs';
import { temporaryFolder } from './temporary-folder.ts';

const lock = {
	packages: {
		'': { dependencies: { comb: '^1.0.0' } },
		'node_modules/comb': { version: '1.2.0' },
		'node_modules/comb-for-another-platform': { version: '1.2.0', optional: true },
	},
};
const declared = { dependencies: { comb: '^1.0.0' } };
const installed = { packages: { 'node_modules/comb': { version: '1.2.0' } } };
type Files = Readonly<Record<string, unknown>>;

const current: Files = {
	'package.json': declared,
	'package-lock.json': lock,
	'node_modules/.package-lock.json': installed,
};

function reason(files: Files, stamp?: string): string | undefined {
	const texts = Object.entries(files).map(([path, value]) => [path, JSON.stringify(value)]);
	if (stamp !== undefined) texts.push(['node_modules/.installed-for', stamp]);
	return reasonToInstall(temporaryFolder(Object.fromEntries(texts)));
}

test('packages that fit the lock file are not installed again', () => {
	expect(reason(current)).toBeUndefined();
	expect(reasonToInstall(projectRoot)).toBeUndefined(); // these tests run on installed packages
});

test('a fresh clone and an interrupted installation are seen', () => {
	const { 'node_modules/.package-lock.json': _, ...clone } = current;
	expect(reason(clone)).toBe('none are installed');
	expect(reason({ ...clone, 'node_modules/comb/package.json': {} })).toBe('none are installed');
});

test('a package of another version, or missing, is named', () => {
	const older = { packages: { 'node_modules/comb': { version: '1.1.0' } } };
	expect(reason({ ...current, 'node_modules/.package-lock.json': older })).toMatch('comb is missing or not current');
	expect(reason({ ...current, 'node_modules/.package-lock.json': { packages: {} } })).toMatch('comb');
});

test('package.json ahead of its lock file is seen', () => {
	expect(reason({ ...current, 'package.json': { dependencies: { comb: '^2.0.0' } } })).toBe('package.json has changed');
});

test('packages installed for another Node or platform are installed again', () => {
	expect(reason(current, 'Node 18 elsewhere x32\n')).toBe('Node or the platform has changed');
	const here = `Node ${process.versions.node.split('.')[0]} ${process.platform} ${process.arch}\n`;
	expect(reason(current, here)).toBeUndefined();
});
