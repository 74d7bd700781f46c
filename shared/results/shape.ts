/**
 * Where a value that came from outside is not what it should be: a dotted path; null where it is.
 * `absent`: what a null stands for, and is replaced by, where the value is a member of something.
 */
export type Check<T> = ((value: unknown, path: string) => string | null) & { readonly of?: T; readonly absent?: T };

/** A check that holds where `holds` does. */
const plain =
	<T>(holds: (value: unknown) => boolean): Check<T> =>
	(value, path) =>
		holds(value) ? null : path;

/** Also infinite and no number at all. */
export const number: Check<number> = plain((value) => typeof value === 'number');
export const finite: Check<number> = plain((value) => Number.isFinite(value));
/** A number that may not exist: JSON has no NaN, and a file says null. */
export const figure: Check<number> = Object.assign(
	plain<number>((value) => typeof value === 'number' || value === null),
	{ absent: Number.NaN },
);
export const flag: Check<boolean> = plain((value) => typeof value === 'boolean');
/** A whole number from 0. */
export const count: Check<number> = plain((value) => Number.isSafeInteger(value) && (value as number) >= 0);

export const text = (longest: number): Check<string> =>
	plain((value) => typeof value === 'string' && value.length <= longest);

export const one = <const T extends string | number>(...allowed: readonly T[]): Check<T> =>
	plain((value) => allowed.includes(value as T));

export function orNull<T>(check: Check<T>): Check<T | null> {
	return (value, path) => (value === null ? null : check(value, path));
}

export function optional<T>(check: Check<T>): Check<T | undefined> {
	return (value, path) => (value === undefined ? null : check(value, path));
}

/** A check that looks further into what passed `check`. */
export function refined<T>(check: Check<T>, further: (value: T, path: string) => string | null): Check<T> {
	return (value, path) => check(value, path) ?? further(value as T, path);
}

export function list<T>(check: Check<T>, longest: number): Check<readonly T[]> {
	return (value, path) => {
		if (!Array.isArray(value) || value.length > longest) return path;
		for (let i = 0; i < value.length; i += 1) {
			const wrong = checkMember(check, value, i, `${path}[${i}]`);
			if (wrong) return wrong;
		}
		return null;
	};
}

export function pair<T>(check: Check<T>): Check<readonly [T, T]> {
	const both = list(check, 2);
	return (value, path) => (Array.isArray(value) && value.length === 2 ? both(value, path) : path);
}

/** Any names, all with values of one kind. */
export function dictionary<T>(check: Check<T>, most: number): Check<Readonly<Record<string, T>>> {
	return (value, path) => {
		if (!isRecord(value) || Object.keys(value).length > most) return path;
		for (const name of Object.keys(value)) {
			const wrong = checkMember(check, value, name, `${path}.${name}`);
			if (wrong) return wrong;
		}
		return null;
	};
}

/** These names; further ones are ignored. The compiler sees to it that every member of T is named. */
export function object<T extends object>(checks: { readonly [Name in keyof T]-?: Check<T[Name]> }): Check<T> {
	const entries = Object.entries(checks) as [string, Check<unknown>][];
	return (value, path) => {
		if (!isRecord(value)) return path;
		for (const [name, check] of entries) {
			const wrong = checkMember(check, value, name, `${path}.${name}`);
			if (wrong) return wrong;
		}
		return null;
	};
}

/** Checks one member; a null that stands for something gives way to it. */
function checkMember(check: Check<unknown>, owner: object, name: string | number, path: string): string | null {
	const members = owner as Record<string | number, unknown>;
	const wrong = check(Object.hasOwn(members, name) ? members[name] : undefined, path);
	if (wrong === null && members[name] === null && check.absent !== undefined) members[name] = check.absent;
	return wrong;
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
	typeof value === 'object' && value !== null && !Array.isArray(value);
