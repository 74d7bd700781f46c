import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { type DriveOutcome, falseCrossings } from './drive-outcome.ts';
import type { PairOutcome } from './unit-outcomes.ts';

/** Which of a unit's starts at a point goes worst, with either choice or with those named: lock lost, torque missed, false crossings, angle. */
export function worstStart(
	outcomes: readonly PairOutcome[],
	point: number,
	starts: number,
	choices: readonly ChoiceName[] = choiceNames,
): number {
	let worst = 0;
	for (let start = 1; start < starts; start += 1) {
		const [best, next] = [outcomes[point * starts + worst], outcomes[point * starts + start]];
		if (best && next && isWorse(next, best, choices)) worst = start;
	}
	return worst;
}

function isWorse(one: PairOutcome, other: PairOutcome, choices: readonly ChoiceName[]): boolean {
	if ('failure' in one || 'failure' in other) return 'failure' in one && !('failure' in other);
	const mine = badness(one, choices);
	const theirs = badness(other, choices);
	const at = mine.findIndex((size, i) => size !== theirs[i]);
	return at >= 0 && (mine[at] as number) > (theirs[at] as number);
}

/** In the order in which they count. */
function badness(
	pair: Exclude<PairOutcome, { readonly failure: string }>,
	choices: readonly ChoiceName[],
): readonly number[] {
	const over = (read: (outcome: DriveOutcome) => number): number =>
		Math.max(...choices.map((choice) => read(pair[choice])));
	return [
		over(({ lost }) => Number(lost)),
		over(({ torqueNotReached }) => Number(torqueNotReached)),
		over(falseCrossings),
		over(({ judgedError }) => (Number.isNaN(judgedError) ? 0 : judgedError)),
	];
}
