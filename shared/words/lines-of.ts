/** Words over several lines of at most so many letters, broken at blanks; a longer word keeps its line. */
export function linesOf(words: string, longest: number): readonly string[] {
	const lines: string[] = [];
	for (const word of words.split(' ')) {
		const last = lines.at(-1);
		if (last !== undefined && last.length + 1 + word.length <= longest) lines[lines.length - 1] = `${last} ${word}`;
		else lines.push(word);
	}
	return lines;
}
