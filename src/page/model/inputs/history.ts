/** Steps that can be taken back and done again. States are replaced, never changed. */
export interface History<State> {
	readonly past: readonly Step<State>[];
	readonly present: State;
	readonly future: readonly Step<State>[];
	/** What made the present; steps of the same kind in a row are one. */
	readonly latest: string;
}

interface Step<State> {
	readonly state: State;
	/** What led from this state to the next, in words. */
	readonly words: string;
}

/** So many steps can be taken back. */
const most = 200;

export function begin<State>(present: State): History<State> {
	return { past: [], present, future: [], latest: '' };
}

/** @param kind edits of the same kind in a row, such as the keys of one number, are taken back together; '' for never */
export function advance<State>(history: History<State>, next: State, words: string, kind = ''): History<State> {
	const { past, present, latest } = history;
	if (kind !== '' && kind === latest && past.length > 0) return { ...history, present: next, future: [] };
	return { past: [...past.slice(1 - most), { state: present, words }], present: next, future: [], latest: kind };
}

export function undone<State>(history: History<State>): History<State> {
	const { past, present, future } = history;
	const step = past.at(-1);
	if (!step) return history;
	return {
		past: past.slice(0, -1),
		present: step.state,
		future: [{ state: present, words: step.words }, ...future],
		latest: '',
	};
}

export function redone<State>(history: History<State>): History<State> {
	const { past, present, future } = history;
	const [step, ...rest] = future;
	if (!step) return history;
	return { past: [...past, { state: present, words: step.words }], present: step.state, future: rest, latest: '' };
}

/** The next edit begins a step of its own. */
export const paused = <State>(history: History<State>): History<State> => ({ ...history, latest: '' });
