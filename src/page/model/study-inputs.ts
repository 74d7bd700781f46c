/** What a study is asked with besides its scenario: as typed, and as understood. */
export interface StudyInputs {
	readonly units: number;
	readonly seed: string;
}

/** Typed text → value, or what is wrong with it in words that go beside the field. */
export type Understood<T> = { readonly value: T } | { readonly problem: string };

export const inputDefaults = { units: '1000', seed: 'demo' } as const;

/** More units than this take a browser's tab longer than anyone waits for. */
const unitLimits = { min: 1, max: 1_000_000 } as const;
const longestSeed = 200;

/** Accepts thousands set with spaces, commas, points-as-separators not: "10 000" and "10,000" are ten thousand. */
export function readUnits(typed: string): Understood<number> {
	const digits = typed.trim().replace(/(?<=\d)[\s,_](?=\d{3}\b)/g, '');
	const range = `a whole number from ${unitLimits.min} to 1 000 000`;
	if (digits === '') return { problem: `How many drives to build: ${range}.` };
	if (!/^[+-]?\d+$/.test(digits)) return { problem: `“${shortened(typed)}” is not ${range}.` };
	const value = Number(digits);
	if (value < unitLimits.min || value > unitLimits.max)
		return { problem: `${shortened(typed)} is outside the range: ${range}.` };
	return { value };
}

/** Any text but none at all: equal seeds give equal results to the last digit. */
export function readSeed(typed: string): Understood<string> {
	const value = typed.trim();
	if (value === '') return { problem: 'A seed is any word or number; equal seeds give equal results.' };
	if (value.length > longestSeed)
		return { problem: `A seed has at most ${longestSeed} characters; this one has ${value.length}.` };
	return { value };
}

/** What is wrong with a field, or nothing. */
export const inputProblem = (understood: Understood<unknown>): string =>
	'problem' in understood ? understood.problem : '';

const shortened = (text: string): string => (text.length > 24 ? `${text.slice(0, 23)}…` : text.trim());
