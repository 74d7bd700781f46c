import type { ChoiceName } from '../drive/drive.ts';
import { capital } from '../words/capital.ts';
import { count, drives, percent, pWords } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import type { PassingPairs } from './result.ts';

/** Which choice passes more drives, by how much and with what confidence, or that it is not shown. */
export function comparisonSentence({ units, both, only, neither, ...pairs }: PassingPairs, level: number): string {
	const { difference, interval, better, p } = pairs;
	if (difference === null || interval === null) return 'No drive was judged with both choices.';
	const differ = only.halfBus + only.virtualNeutral;
	const signed = (share: number): string => `${share < 0 ? '−' : ''}${points(Math.abs(share))}`;
	const between = (low: number, high: number): string =>
		`${levelWords(level)} interval ${signed(low)} to ${signed(high)}`;
	if (better === 'not shown') {
		const seen =
			differ === 0
				? `every one of ${drives(units)} passes with both or with neither (${count(both)} with both)`
				: `${count(only.halfBus)} of ${drives(units)} ${units === 1 ? 'passes' : 'pass'} with half-bus alone and ${count(only.virtualNeutral)} with virtual neutral alone`;
		// the interval is approximate, the test exact: with few drives that differ they may part
		const apart =
			interval[0] > 0 || interval[1] < 0
				? ' The interval, which is approximate, just leaves 0 out; the exact test decides.'
				: '';
		return `Neither choice is shown to pass more drives: ${seen}; half-bus less virtual neutral, ${between(interval[0], interval[1])} percentage points (McNemar's exact test: ${pWords(p)}).${apart}`;
	}
	const other = better === 'halfBus' ? 'virtualNeutral' : 'halfBus';
	const [low, high] = better === 'halfBus' ? interval : [-interval[1], -interval[0]];
	const passing = (choice: ChoiceName): string => percent((both + only[choice]) / units);
	return (
		`${capital(choiceWords[better])} passes more drives: ${passing(better)} against ${passing(other)} with ${choiceWords[other]}, ` +
		`${points(Math.abs(difference))} percentage points more (${between(low, high)}; ${count(only[better])} drives pass with it alone, ` +
		`${count(only[other])} with the other alone, ${count(neither)} with neither; McNemar's exact test: ${pWords(p)}).`
	);
}

/** A difference of shares in percentage points. */
const points = (share: number): string => percent(share).replace(/\s%$/, '');
