import { expect, test } from 'vitest';
import { rateChange } from '../../shared/statistics/rate-change.ts';
import { ratioEstimate } from '../../shared/statistics/ratio-estimate.ts';

const trials = new Array<number>(40).fill(20);
const before = { events: trials.map((_, unit) => unit % 4), trials };
const after = { events: trials.map((_, unit) => (unit % 4) + 1), trials };

test('60 and 100 events in 800 trials, 100 and 200 trials an hour: 7.5 and 25 an hour, 17.5 more', () => {
	const change = rateChange(before, after, { scale: [100, 200], paired: false });
	expect(change?.before).toBeCloseTo(7.5, 12);
	expect(change?.after).toBeCloseTo(25, 12);
	expect(change?.change).toBeCloseTo(17.5, 12);
	// limits of independent rates: the root of both reaches' squares
	const [was, is] = [before, after].map(({ events }) => ratioEstimate(events, trials)) as [
		ReturnType<typeof ratioEstimate>,
		ReturnType<typeof ratioEstimate>,
	];
	const [down, up] = [200 * (is.ratio - is.low), 100 * (was.high - was.ratio)];
	expect(change?.low).toBeCloseTo(17.5 - Math.sqrt(down * down + up * up), 10);
});

test('one event more on every unit is known better of the same units than of others, and of no event nothing is said', () => {
	const width = (paired: boolean): number => {
		const { low, high } = rateChange(before, after, { paired }) ?? expect.unreachable();
		return high - low;
	};
	expect(width(true)).toBeLessThan(0.2 * width(false));
	const none = { events: trials.map(() => 0), trials };
	expect(rateChange(none, after)).toBeNull();
	expect(rateChange(before, none)).toBeNull();
});
