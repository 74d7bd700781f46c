import { padEnd, padStart, textWidth, widthOf, wrapText } from '../../src/command-line/wrap-text.ts';
import type { CheckOutcome } from './model-check.ts';

const widths = { what: 41, figure: 15, difference: 9 };

/** The outcomes of one area as a table 80 columns wide, each run of checks under its source. */
export function checkTable(area: string, outcomes: readonly CheckOutcome[]): string {
	const lines = [`── ${area} ${'─'.repeat(Math.max(0, textWidth - widthOf(area) - 4))}`];
	lines.push(columns('', 'expected', 'got', 'differ'));
	let source = '';
	for (const { check, got, difference, holds } of outcomes) {
		const ground = `${check.kind}: ${check.source}${check.unit === '' ? '' : ` [${check.unit}]`}`;
		if (ground !== source) lines.push(wrapText(ground));
		source = ground;
		const what = wrapWhat(check.what);
		lines.push(...what.slice(0, -1));
		const mark = holds ? '' : ' OFF';
		lines.push(
			columns(
				what.at(-1) ?? '',
				figure(check.expected),
				figure(got),
				signed(difference === 0 ? '0' : difference.toExponential(0)),
			) + mark,
		);
	}
	return `${lines.join('\n')}\n`;
}

const columns = (what: string, expected: string, got: string, difference: string): string =>
	padEnd(what, widths.what) +
	padStart(expected, widths.figure) +
	padStart(got, widths.figure) +
	padStart(difference, widths.difference);

/** Nine digits, fewer of small figures: what the most exact of the sources give, and one line holds. */
function figure(value: number): string {
	if (value === 0 || Math.abs(value) >= 1e-3) return signed(String(Number(value.toPrecision(9))));
	return signed(value.toExponential(6).replace(/\.?0+e/, 'e'));
}

const signed = (text: string): string => text.replace(/^-/, '−');

/** Broken at blanks so that each line leaves room for the figures. */
function wrapWhat(what: string): string[] {
	const lines: string[] = [];
	let line = ' ';
	for (const word of what.split(' ')) {
		if (widthOf(line) + 1 + widthOf(word) > widths.what) {
			lines.push(line);
			line = '   ';
		}
		line += ` ${word}`;
	}
	return [...lines, line];
}
