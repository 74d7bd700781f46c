/** Columns that output fits in, terminal and mail alike. */
export const textWidth = 80;

/** Breaks a text at blanks, not between a number and its sign, so that no line is wider than 80 columns (a longer word keeps its line). */
export function wrapText(text: string, { first = '', rest = '' } = {}): string {
	const lines: string[] = [];
	let line = first;
	let isEmpty = true;
	for (const word of text.replaceAll(/(\d) (?=[%°])/g, '$1\u00a0').split(' ')) {
		if (!isEmpty && widthOf(line) + 1 + widthOf(word) > textWidth) {
			lines.push(line);
			line = rest;
			isEmpty = true;
		}
		line += isEmpty ? word : ` ${word}`;
		isEmpty = false;
	}
	lines.push(line);
	return lines.join('\n').replaceAll('\u00a0', ' ');
}

/** Columns a text takes: every sign used here is one column wide. */
export const widthOf = (text: string): number => [...text].length;

export const padEnd = (text: string, width: number): string => text + ' '.repeat(Math.max(0, width - widthOf(text)));
export const padStart = (text: string, width: number): string => ' '.repeat(Math.max(0, width - widthOf(text))) + text;
