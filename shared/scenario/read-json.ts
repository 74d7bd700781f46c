import { withoutControls } from './plain-line.ts';
import type { Problem } from './scenario.ts';

export type Json = null | boolean | number | string | readonly Json[] | JsonObject;
export interface JsonObject {
	readonly [name: string]: Json;
}

export const isObject = (value: Json | undefined): value is JsonObject =>
	typeof value === 'object' && value !== null && !Array.isArray(value);

export interface JsonReading {
	/** Absent where the text is not JSON. */
	readonly value?: Json;
	readonly problems: readonly Problem[];
}

/**
 * Strict JSON (RFC 8259) from a text that a person wrote or a stranger sent:
 * an error names line and column, a name given twice in one object is a
 * problem, texts that are too long or nested too deeply are refused. Objects
 * have no prototype, so `__proto__` is a name like any other. Never throws.
 */
export function readJson(text: string, { longest = 256 * 1024, deepest = 20 } = {}): JsonReading {
	if (text.length > longest) {
		const message = `is too long: ${Math.ceil(text.length / 1024)} kB, at most ${longest / 1024} kB are read`;
		return { problems: [{ path: '(file)', value: shortened(text), message }] };
	}
	const duplicates: Problem[] = [];
	let at = text.startsWith('\ufeff') ? 1 : 0;

	const fail = (expected: string): never => {
		throw new JsonError(at, expected);
	};
	const skipSpace = (): void => {
		while (at < text.length && ' \t\n\r'.includes(text.charAt(at))) at++;
	};
	const take = (sign: string): boolean => {
		skipSpace();
		const found = text.charAt(at) === sign;
		if (found) at++;
		return found;
	};
	/** The text that a sticky pattern matches here, if it does. */
	const match = (pattern: RegExp): string | undefined => {
		pattern.lastIndex = at;
		const found = pattern.exec(text)?.[0];
		if (found !== undefined) at += found.length;
		return found;
	};

	const readString = (): string => {
		const start = at++;
		while (at < text.length && text.charAt(at) !== '"' && text.charAt(at) >= ' ')
			at += text.charAt(at) === '\\' ? 2 : 1;
		at++;
		try {
			return JSON.parse(text.slice(start, at)) as string;
		} catch {
			at = start;
			return fail('a text that ends with " on the same line and has \\ only before " \\ / b f n r t u');
		}
	};
	const readNumber = (): number => {
		const start = at;
		const number = Number(match(/-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y) ?? Number.NaN);
		if (Number.isFinite(number)) return number;
		at = start;
		return fail('a value: a number within ±1.8e308, a text in double quotes, a list or an object');
	};
	const readArray = (path: string, depth: number): Json[] => {
		const items: Json[] = [];
		if (take(']')) return items;
		do items.push(readValue(`${path}[${items.length}]`, depth));
		while (take(','));
		if (!take(']')) fail('a comma or ]');
		return items;
	};
	const readObject = (path: string, depth: number): JsonObject => {
		const object = Object.create(null) as Record<string, Json>;
		if (take('}')) return object;
		do {
			skipSpace();
			if (text.charAt(at) !== '"') fail('a name in double quotes');
			const name = readString();
			const inner = memberPath(path, name);
			if (!take(':')) fail('a colon after the name');
			const value = readValue(inner, depth);
			if (name in object) {
				duplicates.push({ path: inner, value: shortened(value), message: 'is stated twice; keep one of the two' });
			}
			object[name] = value;
		} while (take(','));
		if (!take('}')) fail('a comma or }');
		return object;
	};
	const readValue = (path: string, depth: number): Json => {
		if (depth > deepest) fail(`no more than ${deepest} levels of nesting`);
		skipSpace();
		if (text.charAt(at) === '"') return readString();
		if (take('{')) return readObject(path, depth + 1);
		if (take('[')) return readArray(path, depth + 1);
		const word = match(/(?:true|false|null)(?![A-Za-z0-9_])/y);
		return word === undefined ? readNumber() : (JSON.parse(word) as Json);
	};

	try {
		const value = readValue('', 0);
		skipSpace();
		if (at < text.length) fail('nothing more');
		return { value, problems: duplicates };
	} catch (error) {
		if (!(error instanceof JsonError)) throw error;
		return { problems: [{ path: '(file)', value: excerpt(text, error.at), message: position(text, error) }] };
	}
}

class JsonError extends Error {
	readonly at: number;
	readonly expected: string;
	constructor(at: number, expected: string) {
		super(expected);
		this.at = at;
		this.expected = expected;
	}
}

function position(text: string, { at, expected }: JsonError): string {
	const before = text.slice(0, at).split('\n');
	return `is not JSON: line ${before.length}, column ${(before.at(-1)?.length ?? 0) + 1}: expected ${expected}`;
}

const excerpt = (text: string, at: number): string =>
	at < text.length ? shortened(text.slice(at)) : 'the end of the text';

/** Where a member is: `motor.polePairs`. */
export function memberPath(path: string, name: string): string {
	const shown = shortened(name);
	return path === '' ? shown : `${path}.${shown}`;
}

/** What was written, on one line of at most 60 signs. */
export function shortened(written: unknown): string {
	const text = typeof written === 'string' && written !== '' ? written : (JSON.stringify(written) ?? String(written));
	const line = withoutControls(text.slice(0, 200).replace(/\s+/g, ' '));
	return line.length > 60 ? `${line.slice(0, 59)}…` : line;
}
