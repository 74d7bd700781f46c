import { isObject, type Json } from './read-json.ts';

/** What the files are that are easily taken for another kind, and who takes them. */
export const kindWords = {
	scenario: 'a scenario, which study and most other commands take',
	boards: 'a list of boards, which the command board takes',
	result: 'the results of a study, which the command changes takes',
};

/** What is said of bytes that are no text. */
export const noText = 'is no text in UTF-8: it is of another kind or encoding, or damaged';

/** Whether a text begins as the results of a study do: most are too long to be read as anything else. */
export const isResultText = (text: string): boolean => /^\s*\{\s*"format":\s*"anglespread/.test(text);

/** What a file is, as far as its outermost members show; undefined where they do not. */
export function fileKind(value: Json): 'scenario' | 'boards' | 'result' | undefined {
	if (!isObject(value)) return undefined;
	if (typeof value.format === 'string' && value.format.startsWith('anglespread')) return 'result';
	if (Array.isArray(value.points)) return 'scenario';
	return Array.isArray(value.cases) ? 'boards' : undefined;
}
