import { choiceNames } from '../drive/drive.ts';
import type { ReplicateEstimate } from '../statistics/replicate-interval.ts';
import { confidenceLevel } from '../study/confidence-level.ts';
import { count, degrees, percent } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import { stratifiedWords } from './draws-words.ts';
import type { ReplicatesResult } from './replicates-result.ts';

/** What the replicates show: which choice passes more drives, which errs less at each point, and why there is no verdict. */
export function replicatesSentence({ provenance, passing, points }: Omit<ReplicatesResult, 'sentence'>): string {
	const { draws, units } = provenance;
	const { finished } = draws.replicates;
	if (units.finished === 0 || finished === 0) {
		return `No replicate of ${count(draws.units)} drives was finished: nothing is shown.`;
	}
	const shares = choiceNames.map(
		(choice) => `${percent(passing[choice].estimate)}${within(passing[choice], percent)} with ${choiceWords[choice]}`,
	);
	const errs = points.map(({ name, error95: { difference } }) => {
		const better = betterOf(difference, -1);
		return better === null
			? `at ${name} neither is shown to err less`
			: `at ${name} ${better} errs less, by ${degrees(Math.abs(difference.estimate))} in the mean over drives${within(withoutSign(difference), degrees)}`;
	});
	const more = betterOf(passing.difference, 1);
	const answer = more === null ? 'neither is shown to pass more drives' : `${more} is shown to pass more`;
	return `${shares.join(' and ')} pass: ${answer}; ${errs.join('; ')}. Drives drawn as ${stratifiedWords[draws.kind]} give no verdict: that takes independent draws.`;
}

/** The choice on whose side the whole interval lies. @param sign +1 where more is better */
function betterOf({ interval }: ReplicateEstimate, sign: 1 | -1): string | null {
	if (interval === null || (interval.low <= 0 && interval.high >= 0)) return null;
	return choiceWords[choiceNames[interval.low * sign > 0 ? 0 : 1]];
}

/** The same without a sign, of an interval on one side of 0. */
function withoutSign({ estimate, interval }: ReplicateEstimate): ReplicateEstimate {
	if (interval === null || interval.low > 0) return { estimate, interval };
	return { estimate: -estimate, interval: { low: -interval.high, high: -interval.low } };
}

const within = ({ interval }: ReplicateEstimate, words: (value: number) => string): string =>
	interval === null
		? ''
		: ` (${levelWords(confidenceLevel)} interval ${words(interval.low)} to ${words(interval.high)})`;
