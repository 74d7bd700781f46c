/** Too little is known before, s. */
const soonest = 2;

/**
 * How long work may yet take, if it goes on as it went: "about 40 s left"; '' where that cannot be told yet.
 *
 * @param seconds that what is done took
 */
export function timeLeft(seconds: number, done: number, asked: number): string {
	if (seconds < soonest || done === 0 || done >= asked) return '';
	const left = (seconds * (asked - done)) / done;
	return left < 90 ? `about ${Math.ceil(left)}\u00a0s left` : `about ${Math.round(left / 60)}\u00a0min left`;
}
