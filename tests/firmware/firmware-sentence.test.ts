import { expect, test } from 'vitest';
import type { ChoiceTuning, FirmwareResult } from '../../shared/firmware/firmware-result.ts';
import { firmwareSentence } from '../../shared/firmware/firmware-sentence.ts';
import { verdict } from '../../shared/statistics/verdict.ts';
import { studyResult } from '../page/study-fixture.ts';

/** Figures after 200 drives of which so many pass, with the mean error given and its spread at two points. */
const figures = (passed: number, mean: number) => ({
	passed,
	verdict: verdict({ passed, failed: 200 - passed }, 0.95),
	unitError: { median: 3, q95: 4, medianInterval: null, q95Interval: null },
	crossingsPerHour: { counted: 0, computed: 0 },
	points: [],
	error: {
		mean,
		standardError: 0.1,
		points: [0.8, 1.25].map((betweenDrives, i) => ({
			name: ['slow', 'fast'][i] as string,
			weight: 0.5,
			drives: 200,
			lost: 0,
			mean,
			standardError: 0.1,
			betweenDrives,
			ofCommutations: 2,
		})),
	},
});

const tuning = (over: Partial<ChoiceTuning> = {}): ChoiceTuning => ({
	before: { compensation: 35e-6, advanceTrim: 0 },
	after: { compensation: 75e-6, advanceTrim: -0.52 },
	rounds: 3,
	confirmed: { before: figures(150, 6), after: figures(198, 0.04), change: { gained: 49, lost: 1, p: 0.0002 } },
	...over,
});

const plain = (halfBus: ChoiceTuning, over: Partial<FirmwareResult> = {}): string => {
	const { provenance, requirement } = studyResult();
	return firmwareSentence({
		format: 'anglespread-firmware',
		formatVersion: 1,
		provenance,
		requirement,
		unitsPerRun: 200,
		confirmationSeed: 'fresh',
		advance: 0,
		choices: { halfBus, virtualNeutral: tuning({ rounds: 0, confirmed: null }) },
		...over,
	}).replaceAll('\u00a0', ' ');
};

test('what firmware takes out, what stays where drives spread most, and what it changes in passing drives', () => {
	expect(plain(tuning())).toBe(
		'With half-bus sensing a compensated delay of 75 µs (before: 35 µs) and 0.52° less of advance ' +
			'brings the mean error over the operating points from +6.00° to +0.04° (standard error 0.10°, 200 fresh drives). ' +
			'What stays is 1.25° of standard deviation from drive to drive at fast, where they spread most, ' +
			'and 99.0 % of drives pass, 75.0 % before (49 gained, 1 lost: a change that chance seldom makes, p = 2.0 × 10⁻⁴). ' +
			'With virtual neutral sensing no drive keeps lock at every point: there is no mean error to null.',
	);
	expect(plain(tuning({ after: { compensation: 75e-6, advanceTrim: 0.52 } }))).toContain('and 0.52° more of advance');
	expect(plain(tuning({ after: { compensation: 75e-6, advanceTrim: 0.004 } }))).not.toContain('of advance');
});

test('a move within the standard error is nothing taken out, and a split that chance makes shows no change', () => {
	const confirmed = { before: figures(190, 0.05), after: figures(191, -0.03), change: { gained: 3, lost: 2, p: 1 } };
	const words = plain(tuning({ confirmed }));
	expect(words).toContain(
		'moves the mean error over the operating points, +0.05° before, by less than its standard error (standard error 0.10°, 200 fresh drives): nothing is shown that could be taken out.',
	);
	expect(words).toContain('95.5 % of drives pass, 95.0 % before (3 gained, 2 lost: no change is shown).');
	const same = { ...confirmed, change: { gained: 0, lost: 0, p: 1 } };
	expect(plain(tuning({ confirmed: same }))).toContain('95.0 % before: the same drives.');
});

test('means that cancel over the points are told of where they are taken out', () => {
	const at = (passed: number, means: readonly number[]) => {
		const one = figures(passed, 0);
		return {
			...one,
			error: { ...one.error, points: one.error.points.map((p, i) => ({ ...p, mean: means[i] as number })) },
		};
	};
	const confirmed = {
		before: at(150, [-1.5, 1.4]),
		after: at(198, [0.02, 0.01]),
		change: { gained: 48, lost: 0, p: 1e-9 },
	};
	expect(plain(tuning({ confirmed }))).toContain(
		'leaves the mean error over the operating points about where it is, 0.00° before and 0.00° after, ' +
			'and brings that at slow from −1.50° to +0.02° (standard error 0.10°, 200 fresh drives).',
	);
});

test('a mean of fewer than two drives has no standard error, and nothing is said of it', () => {
	const none = figures(0, 0.09);
	const points = none.error.points.map((point) => ({ ...point, betweenDrives: Number.NaN }));
	const lost = { ...none, error: { ...none.error, points, standardError: Number.NaN } };
	const confirmed = { before: lost, after: lost, change: { gained: 0, lost: 0, p: 1 } };
	const words = plain(tuning({ confirmed }), { unitsPerRun: 3 });
	expect(words).toContain('of advance was tried on 3 fresh drives, of which too few keep lock to tell.');
	expect(words).toContain('too few keep lock to tell. 0 % of drives pass, 0 % before: the same drives.');
	expect(words).not.toContain('–');
});

test('what was not confirmed is said to be not, and without a finished drive nothing is shown', () => {
	expect(plain(tuning({ confirmed: null }), { unitsPerRun: 20 })).toMatch(
		/^With half-bus sensing a compensated delay of 75 µs .* is as far as the search for a mean error of 0 over the operating points came: it was stopped before fresh drives confirmed it\. With virtual neutral sensing no drive keeps lock at every point: there is no mean error to null\.$/,
	);
	const { provenance } = studyResult();
	expect(plain(tuning(), { provenance: { ...provenance, units: { asked: 800, finished: 0, failed: 800 } } })).toBe(
		'None of the 800 drives was finished: nothing is shown.',
	);
});

test('stopped in its first round it says so, not that lock was lost; stopped later, lock was lost', () => {
	const { provenance } = studyResult();
	const none = tuning({ rounds: 0, confirmed: null });
	const stopped = (finished: number, failed: number): string =>
		plain(none, { provenance: { ...provenance, partial: true, units: { asked: 600, finished, failed } } });
	expect(stopped(150, 49)).toBe(
		'Stopped before the first round of 200 drives was finished: no tuning was found, and nothing is shown.',
	);
	expect(stopped(150, 50)).toMatch(/^With half-bus sensing no drive keeps lock at every point: /);
});
