import { computed, type ReadonlySignal } from '@preact/signals';

/** A signal that keeps its value while the next one is the same. */
export function stable<T>(
	source: ReadonlySignal<T | null>,
	isSame: (one: T, other: T) => boolean,
): ReadonlySignal<T | null> {
	let kept: T | null = null;
	return computed(() => {
		const next = source.value;
		if (kept === null || next === null || !isSame(kept, next)) kept = next;
		return kept;
	});
}
