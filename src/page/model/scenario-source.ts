import { isResultText, noText } from '../../../shared/scenario/file-kind.ts';
import { isObject, readJson } from '../../../shared/scenario/read-json.ts';
import { notScenario } from '../../../shared/scenario/read-scenario.ts';
import { count } from '../../../shared/words/figures.ts';

/** A scenario file's text and where it came from. */
export interface ScenarioSource {
	/** `demo`: comes with the page. `file`: opened or dropped by the user. */
	readonly kind: 'demo' | 'file';
	readonly file: string;
	readonly text: string;
}

/** Shown at load. */
const first = 'fan-24v.json';
/** Bytes. The scenario reader has its own limits; this one keeps a wrong file from being read at all. */
const largestFile = 4_000_000;

/** The demo scenarios from their bundled texts by path, the first one to be shown in front. */
export function demoSources(texts: Readonly<Record<string, string>>): readonly ScenarioSource[] {
	return Object.entries(texts)
		.map(([path, text]): ScenarioSource => ({ kind: 'demo', file: path.split('/').at(-1) ?? path, text }))
		.sort((a, b) => Number(b.file === first) - Number(a.file === first) || (a.file < b.file ? -1 : 1));
}

/** Why a file is too large to be a scenario, or nothing. */
export function tooLarge({ name, size }: { readonly name: string; readonly size: number }): string {
	return size > largestFile
		? `${name} has ${count(size / 1000)} kB; a scenario file has at most ${count(largestFile / 1000)} kB.`
		: '';
}

/** Why a file's text cannot be edited as a scenario at all, or nothing: one with problems in it can. */
export function noScenario(name: string, text: string): string {
	const refused = (why: string): string => `${name} was not opened: it ${why}.`;
	// what a browser puts in place of bytes that are no text
	if (text.includes('\ufffd')) return refused(noText);
	if (isResultText(text)) return refused(notScenario('result'));
	const { value, problems } = readJson(text);
	if (isObject(value)) return '';
	return refused(problems[0]?.message ?? 'is JSON, but no object with a name and points');
}
