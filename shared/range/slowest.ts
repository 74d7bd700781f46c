import type { Decision } from '../statistics/verdict.ts';
import { type Axis, between } from './axis.ts';

/** What is known of a speed for one choice. */
export interface SpeedDecision {
	readonly speed: number;
	readonly decision: Decision;
}

/** Where the requirement stops holding as the speed falls. */
export interface Bracket {
	/** The fastest speed looked at that holds; null where none does. */
	readonly fastest: number | null;
	/** The slowest speed down to which, from there, every speed looked at holds. */
	readonly holds: number | null;
	/** The next slower speed looked at, where it does not hold; null where none is slower. */
	readonly fails: number | null;
}

/** From the fastest speed that holds downwards to the first that does not. @param looked in any order */
export function bracket(looked: readonly SpeedDecision[]): Bracket {
	let fastest: number | null = null;
	let holds: number | null = null;
	for (const { speed, decision } of [...looked].sort((one, other) => other.speed - one.speed)) {
		if (decision === 'holds') {
			fastest ??= speed;
			holds = speed;
		} else if (holds !== null) return { fastest, holds, fails: speed };
	}
	return { fastest, holds, fails: null };
}

/**
 * The speed to look at next, between the two; null where the bracket is as
 * narrow as `resolution` (a share of the speed that holds) or has an open side.
 */
export function nextSpeed(
	{ holds, fails }: Pick<Bracket, 'holds' | 'fails'>,
	resolution: number,
	spacing: Axis['spacing'],
): number | null {
	if (holds === null || fails === null || holds - fails <= resolution * holds) return null;
	return between(fails, holds, 0.5, spacing);
}
