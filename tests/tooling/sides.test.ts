import ts from 'typescript';
import { expect, test } from 'vitest';
import { projectRoot } from '../../src/tooling/project.mjs';

/** Messages of the compiler where a file of a side had this text. */
function compile(configuration: string, file: string, text: string): string[] {
	const { config } = ts.readConfigFile(projectRoot + configuration, ts.sys.readFile);
	const folder = projectRoot + configuration.replace(/[^/]+$/, '');
	const { options, fileNames } = ts.parseJsonConfigFileContent(config, ts.sys, folder);
	const host = ts.createCompilerHost(options);
	const path = projectRoot + file;
	const { getSourceFile, fileExists } = host;
	host.fileExists = (name) => name === path || fileExists(name);
	host.getSourceFile = (name, version) =>
		name === path ? ts.createSourceFile(name, text, version) : getSourceFile(name, version);
	const declarations = fileNames.filter((name) => name.endsWith('.d.ts'));
	const program = ts.createProgram([path, ...declarations], { ...options, incremental: false }, host);
	return program
		.getSemanticDiagnostics(program.getSourceFile(path))
		.map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, ' '));
}

const shared = (text: string) => compile('shared/tsconfig.json', 'shared/planted.ts', text);
const worker = (text: string) => compile('workers/tsconfig.json', 'workers/planted.ts', text);
const nodeWorker = (text: string) => compile('workers/tsconfig.node.json', 'workers/node-planted.ts', text);
const page = (text: string) => compile('src/page/tsconfig.json', 'src/page/planted.tsx', text);

test.each(['document', 'window', 'self', 'process', 'Buffer', 'setTimeout', 'fetch', 'performance'])(
	'%s does not compile in shared',
	(name) => {
		expect(shared(`export const planted = ${name};`).join()).toContain(`'${name}'`);
	},
);

test('what every host has compiles in shared', () => {
	expect(shared("export const bytes = crypto.subtle.digest('SHA-256', new TextEncoder().encode('a'));")).toEqual([]);
});

test('document and window do not compile in a worker; its own scope does', () => {
	expect(worker('export const planted = document;').join()).toContain("'document'");
	expect(worker('export const planted = window;').join()).toContain("'window'");
	expect(worker('export const planted = self.name;')).toEqual([]);
	expect(nodeWorker('export const planted = document;').join()).toContain("'document'");
	expect(nodeWorker("import { parentPort } from 'node:worker_threads';\nexport const p = parentPort;")).toEqual([]);
});

test('the page has a document and no process', () => {
	expect(page('export const title = <p>{document.title}</p>;')).toEqual([]);
	expect(page('export const planted = process;').join()).toContain("'process'");
});
