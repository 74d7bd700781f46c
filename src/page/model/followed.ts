import { effect, type ReadonlySignal, signal } from '@preact/signals';

/** A question that takes its time. */
interface Question<Answer> {
	/** What it is about: while it stays the same, the answer before stays until the next one is there. */
	readonly of: string;
	readonly answer: Promise<Answer | null>;
}

/**
 * The answer to a question that changes with what it is made of. One that a
 * newer question has overtaken is dropped; one that fails is no answer.
 *
 * @param ask reads signals; null where there is nothing to ask
 */
export function followed<Answer>(ask: () => Question<Answer> | null): ReadonlySignal<Answer | null> {
	const latest = signal<Answer | null>(null);
	let under: Question<Answer> | null = null;
	effect(() => {
		const question = ask();
		if (question?.of !== under?.of) latest.value = null;
		under = question;
		question?.answer
			.catch(() => null)
			.then((answer) => {
				if (under === question) latest.value = answer;
			});
	});
	return latest;
}
