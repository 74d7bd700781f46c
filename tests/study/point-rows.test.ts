import { expect, test } from 'vitest';
import { pointRows } from '../../shared/study/point-rows.ts';
import { noneSeen, seen, studyResult } from '../page/study-fixture.ts';

/** The row under a kind's rate that bounds it. */
function boundOf(halfBus: typeof noneSeen, virtualNeutral: typeof noneSeen) {
	const [point] = studyResult().points;
	if (point === undefined) throw new Error('no point');
	const rated = (choice: 'halfBus' | 'virtualNeutral', early: typeof noneSeen) => ({
		...point.choices[choice],
		rates: { ...point.choices[choice].rates, early },
	});
	const choices = { halfBus: rated('halfBus', halfBus), virtualNeutral: rated('virtualNeutral', virtualNeutral) };
	const rows = pointRows({ ...point, choices }, 0.95);
	const from = rows.findIndex(({ label }) => label === 'Early false crossings');
	return rows.slice(from).find(({ label }) => /interval|bound/.test(label));
}

test('a one-sided bound on drives never stands under the word interval alone', () => {
	const some = seen(5, 10_000);
	expect(boundOf(some, some)?.label).toBe('95\u00a0% interval');
	expect(boundOf(noneSeen, noneSeen)?.label).toBe('95\u00a0% bound');
	const mixed = boundOf(noneSeen, some);
	expect(mixed?.label).toBe('95\u00a0% interval or bound');
	expect(mixed?.words?.halfBus).toBe('≤ 0.4\u00a0% of drives');
});

test('runs short of the torque are counted of those that kept lock', () => {
	const [point] = studyResult().points;
	if (point === undefined) throw new Error('no point');
	const counted = { runs: 32, lost: 5, torqueNotReached: 2 };
	const choices = {
		halfBus: { ...point.choices.halfBus, ...counted },
		virtualNeutral: { ...point.choices.virtualNeutral, ...counted, lost: 0 },
	};
	const short = pointRows({ ...point, choices }, 0.95).find(({ label }) => label === 'Runs short of the torque');
	expect(short?.words).toEqual({ halfBus: '2 of 27 in lock', virtualNeutral: '2 of 32' });
});
