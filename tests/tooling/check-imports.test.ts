import { expect, test } from 'vitest';
import { checkImports } from '../../src/tooling/check-imports.mjs';
import { projectRoot } from '../../src/tooling/project.mjs';
import { sourceFiles } from '../../src/tooling/source-files.mjs';
import { temporaryFolder } from './temporary-folder.ts';

/** A small tree that keeps every rule. */
const clean = {
	'shared/drive/drive.ts': 'export const drive = 1;',
	'shared/study/study.ts': "import { drive } from '../drive/drive.ts';\nexport const study = drive;",
	'workers/shard-api.ts': "import { study } from '../shared/study/study.ts';\nexport const api = { study };",
	'src/host/pool.ts': "import type { api } from '../../workers/shard-api.ts';\nexport type Api = typeof api;",
	'src/page/main.ts': "import type { Api } from '../host/pool.ts';\nexport type Page = Api;",
	'src/command-line/study.command.ts': "import { writeFileSync } from 'node:fs';\nwriteFileSync('out.json', '');",
};

async function rulesBroken(files: Readonly<Record<string, string>>): Promise<string[]> {
	const { violations } = await checkImports(temporaryFolder({ ...clean, ...files }));
	return [...new Set(violations.map((violation) => violation.split(':')[0] ?? ''))];
}

test('a tree that keeps the rules has no violation, and all of its 6 files are read', async () => {
	expect(await checkImports(temporaryFolder(clean))).toEqual({ read: 6, violations: [] });
});

test('a tree in which nothing is read is a violation', async () => {
	expect(await checkImports(temporaryFolder())).toEqual({
		read: 0,
		violations: ['not read: there is no source file at all'],
	});
});

test.each([
	['shared-imports-only-shared', 'shared/drive/a.ts', "import { api } from '../../workers/shard-api.ts';\napi;"],
	[
		'shared-imports-only-shared',
		'shared/drive/a.ts',
		"import type { Page } from '../../src/page/main.ts';\nexport type A = Page;",
	],
	['no-node-in-a-browser', 'shared/drive/a.ts', "import { readFileSync } from 'node:fs';\nreadFileSync('');"],
	['no-node-in-a-browser', 'src/page/a.ts', "import { readFileSync } from 'fs';\nreadFileSync('');"],
	['no-node-in-a-browser', 'src/host/pool-size.ts', "import { cpus } from 'node:os';\ncpus();"],
	[
		'workers-import-only-shared',
		'workers/a.ts',
		"import type { Api } from '../src/host/pool.ts';\nexport type A = Api;",
	],
	['src-takes-only-types-from-workers', 'src/host/a.ts', "import { api } from '../../workers/shard-api.ts';\napi;"],
	[
		'src-takes-only-types-from-workers',
		'src/host/a.ts',
		"export const later = () => import('../../workers/shard-api.ts');",
	],
	['page-and-command-line-apart', 'src/page/a.ts', "import '../command-line/study.command.ts';"],
	[
		'page-and-command-line-apart',
		'src/host/a.ts',
		"import type { Page } from '../page/main.ts';\nexport type A = Page;",
	],
	[
		'no-circle',
		'shared/drive/a.ts',
		"export type A = import('./b.ts').B;\nimport { b } from './b.ts';\nb;",
		'shared/drive/b.ts',
		"import { drive } from './drive.ts';\nimport './a.ts';\nexport type B = 1;\nexport const b = drive;",
	],
	['no-orphan', 'shared/drive/forgotten.ts', 'export const forgotten = 1;'],
	['only-what-exists', 'src/page/a.ts', "import '../host/not-there.ts';"],
])('%s: a planted violation in %s is found', async (rule, file, text, secondFile = file, secondText = text) => {
	expect(await rulesBroken({ [file]: text, [secondFile]: secondText })).toContain(rule);
});

test('in this project every source file is among those read', async () => {
	const files = sourceFiles(projectRoot, ['shared', 'workers', 'src', 'tests'], /\.(ts|tsx|mts|mjs)$/);
	expect(files.length).toBeGreaterThan(50);
	expect((await checkImports(projectRoot)).read).toBe(files.length);
});
