import { mcnemar } from '../statistics/mcnemar.ts';
import { pairedShareDifference } from '../statistics/share-difference.ts';
import type { PassingPairs } from './result.ts';

/**
 * Both choices judged on the same finished units: how many pass with both, with
 * one alone, with neither. One is better where McNemar's exact test finds the
 * split of the units they differ in too uneven for chance.
 *
 * @param passes whether unit number `place` passes with each choice
 */
export function passingPairs(
	units: number,
	passes: (place: number, choice: number) => boolean,
	level: number,
): PassingPairs {
	const counts = { both: 0, onlyFirst: 0, onlySecond: 0, neither: 0 };
	for (let place = 0; place < units; place += 1) {
		const [first, second] = [passes(place, 0), passes(place, 1)];
		counts[first ? (second ? 'both' : 'onlyFirst') : second ? 'onlySecond' : 'neither'] += 1;
	}
	const { both, onlyFirst, onlySecond, neither } = counts;
	const { low, high } = pairedShareDifference(counts, level);
	const { exact } = mcnemar(onlyFirst, onlySecond);
	return {
		units,
		both,
		only: { halfBus: onlyFirst, virtualNeutral: onlySecond },
		neither,
		difference: units === 0 ? null : (onlyFirst - onlySecond) / units,
		interval: units === 0 ? null : [low, high],
		p: exact,
		better: exact < 1 - level ? (onlyFirst > onlySecond ? 'halfBus' : 'virtualNeutral') : 'not shown',
	};
}
