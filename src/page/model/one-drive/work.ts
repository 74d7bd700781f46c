import { type Signal, signal } from '@preact/signals';
import { errorMessage } from '../../../../shared/words/error-message.ts';

/** Something worked out elsewhere; what was there before stays while it is worked out anew. */
export interface Work<T> {
	readonly state: 'idle' | 'working' | 'done' | 'failed';
	readonly value: T | null;
	/** Why it failed. */
	readonly message: string;
}

/** Work of which only the latest counts. */
export interface LatestWork<T> {
	readonly work: Signal<Work<T>>;
	/** Begins it; what was begun earlier is no longer waited for. */
	begin(make: () => Promise<T>, keep?: boolean): Promise<void>;
}

export function latestWork<T>(): LatestWork<T> {
	const work = signal<Work<T>>({ state: 'idle', value: null, message: '' });
	let latest = 0;
	return {
		work,
		/** @param keep whether the value before stays on show meanwhile */
		async begin(make, keep = false) {
			latest += 1;
			const own = latest;
			work.value = { state: 'working', value: keep ? work.value.value : null, message: '' };
			try {
				const value = await make();
				if (own === latest) work.value = { state: 'done', value, message: '' };
			} catch (error) {
				const message = errorMessage(error);
				if (own === latest) work.value = { state: 'failed', value: null, message };
			}
		},
	};
}
