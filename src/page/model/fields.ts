import { effect, type Signal, signal } from '@preact/signals';

/** A place for one text that outlives the page, such as the browser's local storage. Either may throw. */
export interface Notebook {
	read(): string | null;
	write(text: string): void;
}

/** Whether what was kept may stand in a field. */
type Fits<T> = (value: unknown) => value is T;

/** Longer ones were not typed. */
const longestTyped = 10_000;

export const isText = (value: unknown): value is string => typeof value === 'string' && value.length <= longestTyped;
/** An operating point's index, null where none was chosen. */
export const isPointTyped = (value: unknown): value is number | null =>
	value === null || (Number.isSafeInteger(value) && (value as number) >= 0);
export const isOneOf =
	<const T extends string>(...allowed: readonly T[]): Fits<T> =>
	(value): value is T =>
		allowed.includes(value as T);

/**
 * What is typed into the views' own fields, so that the page comes back with it
 * after a reload. What is broken or not allowed is left: the fields then begin
 * as they are at first.
 */
export function createFields(notebook: Notebook | undefined) {
	const kept = new Map<string, unknown>(readKept(notebook));
	return {
		/** @param name tells it from all other fields */
		field<T>(name: string, initial: T, fits: Fits<T>): Signal<T> {
			const left = kept.get(name);
			const value = signal<T>(fits(left) ? left : initial);
			effect(() => {
				const now = value.value;
				if (now === initial) kept.delete(name);
				else kept.set(name, now);
				try {
					notebook?.write(JSON.stringify(Object.fromEntries(kept)));
				} catch {
					// full or not allowed: the page works, it only will not come back
				}
			});
			return value;
		},
	};
}

function readKept(notebook: Notebook | undefined): readonly [string, unknown][] {
	try {
		const kept: unknown = JSON.parse(notebook?.read() ?? 'null');
		return typeof kept === 'object' && kept !== null ? Object.entries(kept) : [];
	} catch {
		return [];
	}
}
