import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import ts from 'typescript';
import { projectRoot } from './project.mjs';
import { sourceFiles } from './source-files.mjs';

/**
 * What ECMAScript defines to the last bit. The rest of Math (exp, sin, pow, …)
 * may differ between engines, and random() everywhere.
 */
const exactMath = new Set(
	'abs ceil clz32 floor fround imul max min round sign sqrt trunc E LN10 LN2 LOG10E LOG2E PI SQRT1_2 SQRT2'.split(' '),
);

/**
 * Finds what would make one seed give two results: inexact members of Math,
 * `**` (the same function as Math.pow), and the clock. Math under another name
 * is rejected too, since its members could not be followed.
 *
 * @param {string} file name to show
 * @param {string} text
 * @returns {string[]} one line for each finding
 */
export function indeterminacies(file, text) {
	const source = ts.createSourceFile(file, text, ts.ScriptTarget.ESNext, true);
	/** @type {string[]} */
	const findings = [];
	/**
	 * @param {ts.Node} node
	 * @param {string} message
	 */
	const found = (node, message) => {
		const { line, character } = source.getLineAndCharacterOfPosition(node.getStart());
		findings.push(`${file}:${line + 1}:${character + 1} ${message}`);
	};
	/** @param {ts.Node} node */
	const visit = (node) => {
		if (ts.isIdentifier(node) || ts.isStringLiteral(node)) {
			if (node.text === 'Math') checkMath(node);
			if (node.text === 'Date') found(node, 'Date: results must not depend on the clock');
		}
		if (
			ts.isBinaryExpression(node) &&
			/^\*\*=?$/.test(node.operatorToken.getText()) &&
			!/^2 ?\*\* ?-?\d+$/.test(node.getText()) // a power of two is exact
		) {
			found(node.operatorToken, '** differs between engines: multiply, or use @stdlib/math-base-special-pow');
		}
		ts.forEachChild(node, visit);
	};
	/** @param {ts.Identifier | ts.StringLiteral} math */
	const checkMath = (math) => {
		const { parent } = math;
		if (!ts.isPropertyAccessExpression(parent) || parent.expression !== math) {
			found(math, 'Math may only be used as Math.member here');
		} else if (!exactMath.has(parent.name.text)) {
			found(math, `Math.${parent.name.text} differs between engines: use @stdlib/math-base-special-*`);
		}
	};
	visit(source);
	return findings;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
	const files = sourceFiles(projectRoot, ['shared', 'workers'], /\.tsx?$/);
	const findings = files.flatMap((file) => indeterminacies(file, readFileSync(projectRoot + file, 'utf8')));
	for (const finding of findings) console.error(finding);
	console.log(`${files.length} files read, ${findings.length} calls that differ between engines`);
	process.exit(files.length > 0 && findings.length === 0 ? 0 : 1);
}
