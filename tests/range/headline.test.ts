import { expect, test } from 'vitest';
import type { PerChoice } from '../../shared/drive/drive.ts';
import { rangeHeadline } from '../../shared/range/headline.ts';
import type { RangeResult, SlowestOfChoice } from '../../shared/range/range-result.ts';
import { studyResult } from '../page/study-fixture.ts';
import { rangeResult } from './range-fixture.ts';

const plain = (result: RangeResult): string => rangeHeadline(result).replaceAll('\u00a0', ' ');
const slowest = (choices: PerChoice<SlowestOfChoice>): RangeResult['slowest'] => [
	{ at: {}, resolution: 0.02, choices },
];
const end = (over: Partial<SlowestOfChoice>): SlowestOfChoice => ({
	fastest: 3000,
	holds: 820,
	fails: 500,
	decision: 'undecided',
	turnedRound: 0,
	...over,
});

test.each([
	[
		'both down to a speed',
		end({}),
		end({ holds: 1200 }),
		'down to 820 rpm with half-bus and down to 1200 rpm with virtual neutral',
	],
	[
		'one nowhere',
		end({ fastest: null, holds: null }),
		end({}),
		'at no speed with half-bus and down to 820 rpm with virtual neutral',
	],
	[
		'one not at the fastest',
		end({ fastest: 1200 }),
		end({}),
		'from 1200 rpm down to 820 rpm with half-bus and from 3000 rpm down to 820 rpm with virtual neutral',
	],
	[
		'both from the same speed, not the fastest',
		end({ fastest: 1200 }),
		end({ fastest: 1200, holds: 900 }),
		'from 1200 rpm down to 820 rpm with half-bus and down to 900 rpm with virtual neutral',
	],
])(
	'over speed the headline names the slowest that holds with each choice: %s',
	(_name, halfBus, virtualNeutral, words) => {
		expect(plain(rangeResult({ slowest: slowest({ halfBus, virtualNeutral }) }))).toBe(
			`The requirement is shown to hold ${words} (95 % confidence at each speed).`,
		);
	},
);

test('where no slowest speed was sought it counts the values: 3 and 2 of 4', () => {
	// 200 of 200 and 198 of 200 hold with half-bus at three values, 199 and 200 with the virtual neutral at two
	expect(plain(rangeResult({ slowest: null }))).toBe(
		'Of 4 values of speed the requirement is shown to hold at 3 with half-bus and 2 with virtual neutral (95 % confidence at each).',
	);
});

test('without a finished drive it says so and nothing else', () => {
	const { provenance } = studyResult();
	const nothing = { ...provenance, units: { asked: 800, finished: 0, failed: 800 } };
	expect(plain(rangeResult({ provenance: nothing }))).toBe('None of the 800 drives was finished.');
});

test('a range that goes on or was stopped is not told as a finding', () => {
	const provenance = { ...rangeResult({}).provenance, partial: true, units: { asked: 900, finished: 120, failed: 0 } };
	expect(plain(rangeResult({ provenance }))).toBe(
		'120 of 900 drives are simulated: where the requirement holds is not known yet.',
	);
});
