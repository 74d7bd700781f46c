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

/** Names that a side does not know, of those asked about; other messages as they are. */
function unknownTo(configuration: string, file: string, names: readonly string[]): string[] {
	const text = names.map((name, index) => `export const planted${index} = ${name};`).join('\n');
	return compile(configuration, file, text).map((message) => /^Cannot find name '(\w+)'/.exec(message)?.[1] ?? message);
}

const ofABrowser = ['document', 'window', 'localStorage'];
const ofAnyScope = ['self', 'fetch', 'performance', 'setTimeout'];
const ofNode = ['process', 'Buffer'];
const ofEveryHost = ["crypto.subtle.digest('SHA-256', new TextEncoder().encode('a'))", 'Math.sqrt(2)'];

test('shared knows no browser and no Node, only what every host has', () => {
	const names = [...ofEveryHost, ...ofABrowser, ...ofAnyScope, ...ofNode];
	expect(unknownTo('shared/tsconfig.json', 'shared/planted.ts', names)).toEqual(names.slice(2));
});

test('a worker of a browser has no document and no window, and no Node', () => {
	const names = [...ofAnyScope, ...ofABrowser, ...ofNode];
	expect(unknownTo('workers/tsconfig.json', 'workers/planted.ts', names)).toEqual([...ofABrowser, ...ofNode]);
});

test('a worker of Node has no document and no window', () => {
	const names = [...ofNode, ...ofABrowser];
	expect(unknownTo('workers/tsconfig.node.json', 'workers/node-planted.ts', names)).toEqual(ofABrowser);
});

test('the page has a document, and no Node', () => {
	const names = [...ofABrowser, ...ofAnyScope, ...ofNode, '<p>{document.title}</p>'];
	expect(unknownTo('src/page/tsconfig.json', 'src/page/planted.tsx', names)).toEqual(ofNode);
});
