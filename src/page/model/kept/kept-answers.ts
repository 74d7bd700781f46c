import { type Check, object, one, text } from '../../../../shared/results/shape.ts';
import { version } from '../../../../shared/study/version.ts';
import type { KeptStore } from './kept-store.ts';

/** A finished answer of a longer question as it is stored. */
export interface KeptAnswer<Result = unknown> {
	/** Of the program that answered: another one may answer otherwise. */
	readonly version: string;
	/** All that it was asked with, as JSON: whatever is asked otherwise finds nothing here. */
	readonly asked: string;
	readonly result: Result;
}

/** Finished answers of one longer question, which outlive the page. */
export interface KeptAnswers<Result> {
	/** Gives a way to look them up by what was asked: null where there is none, as where they cannot be read. */
	read(): Promise<(asked: string) => Result | null>;
	/** In the background; where it cannot be kept, it is asked again after a reload. */
	keep(asked: string, result: Result): void;
}

/** So many of a question: the last two with what was asked of the baseline beside them. */
export const mostAnswers = 4;
/** Signs of what is asked: a scenario with long lists of measured values. */
const longestAsked = 2 ** 20;

/**
 * @param question names its place in the store
 * @param shape what comes back must have: it may be broken, or not ours at all
 * @param store opened when it is first wanted; nothing is kept if not given
 */
export function keptAnswers<Result extends { readonly provenance: { readonly partial: boolean } }>(
	question: string,
	shape: Check<Result>,
	store: (() => Promise<KeptStore>) | undefined,
): KeptAnswers<Result> | undefined {
	if (!store) return undefined;
	const answerShape = object<KeptAnswer<Result>>({ version: one(version), asked: text(longestAsked), result: shape });
	const isWhole = (stored: unknown): stored is KeptAnswer<Result> =>
		answerShape(stored, '') === null && !(stored as KeptAnswer<Result>).result.provenance.partial;
	return {
		async read() {
			try {
				const stored = listOf(await (await store()).answers(question));
				// looked through only when it is wanted: that takes longer than all else
				const wanted = new Map<string, Result | null>();
				return (asked) => {
					const one = wanted.has(asked) ? null : stored.find((one) => one?.asked === asked);
					if (one) wanted.set(asked, isWhole(one) ? one.result : null);
					return wanted.get(asked) ?? null;
				};
			} catch {
				return () => null; // they can be worked out again
			}
		},
		keep(asked, result) {
			const change = (stored: unknown) => withAnswer(stored, { version, asked, result });
			void (async () => (await store()).changeAnswers(question, change))().catch(() => {});
		},
	};
}

/** What is stored with one more answer, the latest first; those of another version are let go. */
function withAnswer(stored: unknown, answer: KeptAnswer): readonly KeptAnswer[] {
	const others = listOf(stored).filter(
		(one) => one?.version === answer.version && one.asked !== answer.asked,
	) as readonly KeptAnswer[];
	return [answer, ...others].slice(0, mostAnswers);
}

const listOf = (stored: unknown): readonly (Partial<KeptAnswer> | null)[] => (Array.isArray(stored) ? stored : []);
