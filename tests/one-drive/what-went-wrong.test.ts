import { expect, test } from 'vitest';
import { choiceNames } from '../../shared/drive/drive.ts';
import type { DriveOutcome } from '../../shared/one-drive/drive-outcome.ts';
import { driveCauses, type PairOutcome, unitOutcomes } from '../../shared/one-drive/unit-outcomes.ts';
import { whatWentWrong } from '../../shared/one-drive/what-went-wrong.ts';
import { removals } from '../../shared/one-drive/without.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { sectorsPerHour } from '../../shared/study/sectors-per-hour.ts';
import { crossingsIn } from '../../shared/study/unit-passes.ts';
import { demoPlan } from './demo-plan.ts';

const limits = { angleLimit: 5, quantile: 0.95, crossingsPerHour: 0.01 };
const fine: DriveOutcome = {
	measured: 24,
	meanError: 0.2,
	judgedError: 1.5,
	largestError: 1.8,
	angles: Float64Array.of(0.2, 1.8),
	events: { early: 0, late: 0, missed: 0 },
	perHour: 1e-9,
	causes: { freewheel: 0, noise: 0, threshold: 0 },
	first: null,
	lost: false,
	torqueNotReached: false,
	meanTorque: 0.1,
};
const early: DriveOutcome = {
	...fine,
	events: { early: 2, late: 0, missed: 1 },
	first: { sector: 31, kind: 'early', error: -14.2 },
};
/** Half-bus as given, as it is and without each of the removals; virtual neutral always in order. */
const runs = (...halfBus: readonly DriveOutcome[]): PairOutcome[] =>
	halfBus.map((outcome) => ({ halfBus: outcome, virtualNeutral: fine }));
const sentence = (...given: readonly DriveOutcome[]): string =>
	whatWentWrong(runs(...given), limits)[0]?.sentence.replaceAll(/[\u00a0\u202f]/g, ' ') ?? '';

test('a drive in order is told to be, with its figure and the limit', () => {
	expect(sentence(fine, fine, fine, fine, fine, fine)).toBe(
		'With half-bus sensing nothing went wrong from this start: 95 % of its commutations lie within 1.50°, the limit is 5.00°.',
	);
});

test('single commutations beyond the limit are told of where the requirement allows them', () => {
	const some = { ...fine, judgedError: 4.75, largestError: 6.2, angles: Float64Array.of(0.2, 4.7, 5.1, 6.2) };
	expect(sentence(some, some, some, some, some, some)).toBe(
		'With half-bus sensing nothing went wrong from this start: 95 % of its commutations lie within 4.75°, the limit is 5.00°; 2 of 4 are beyond it, by up to 1.20°, as the requirement allows.',
	);
});

test('one removal that clears it is the cause', () => {
	expect(sentence(early, fine, early, early, early, early)).toBe(
		'With half-bus sensing this drive takes 2 early false crossings and 1 missed crossing in 24 measured sectors, the first in sector 31, 14.20° early. Without ringing this does not happen: that is the cause.'.replace(
			'14.20°',
			'14.2°',
		),
	);
});

test('two removals that each clear it are named together', () => {
	expect(sentence(early, early, fine, early, early, fine)).toMatch(
		/It takes comparator noise and comparator offset together: without any one of them this does not happen\.$/,
	);
});

test('where none clears it, the one that lessens it most is named with what is left', () => {
	const fewer = { ...early, events: { early: 1, late: 0, missed: 0 } };
	expect(sentence(early, early, early, fewer, early, early)).toMatch(
		/does not cure it; mismatch between its parts adds most to it \(1 without\)\.$/,
	);
	expect(sentence(early, early, early, early, early, early)).toMatch(
		/does not cure it or lessen it: it lies in the nominal design/,
	);
});

test('a drive in which none was counted, but too many are to be expected, is told of with its cause', () => {
	const seldom = { ...fine, perHour: 0.3 };
	expect(sentence(seldom, seldom, fine, seldom, seldom, seldom)).toBe(
		"With half-bus sensing no crossing was false or missed, but by the noise and its readings' distances from the threshold 0.3 an hour are to be expected, where 0.01 may be. Without comparator noise this does not happen: that is the cause.",
	);
	const less = { ...fine, perHour: 0.2 };
	expect(sentence(seldom, less, seldom, seldom, seldom, seldom)).toMatch(
		/; ringing adds most to it \(0\.2 an hour without\)\.$/,
	);
	expect(sentence({ ...fine, perHour: Number.NaN }, fine, fine, fine, fine, fine)).toContain('nothing went wrong');
});

test('a start beyond the limit is told as one start of the drive, which may pass over all of them', () => {
	const far = { ...fine, judgedError: 5.2 };
	expect(sentence(far, far, far, far, far, far)).toContain("95 % of this start's commutations lie within 5.20°");
});

test('the rate of a start is that of the unit it is the only start of', () => {
	const plan = demoPlan('fan-24v.json', { 'trial.starts': 1, 'noise.sigma': 0.05 });
	const { columns } = runShard(plan, 7, 8);
	const outcomes = unitOutcomes({ plan, unit: 7 }, 0, plan.scenario.points.length, () => {}).outcomes;
	let seen = 0;
	for (const [place, point] of plan.scenario.points.entries()) {
		const pair = outcomes[place];
		if (!pair || 'failure' in pair) throw new Error('not simulated');
		for (const [c, choice] of choiceNames.entries()) {
			const cell = place * choiceNames.length + c;
			const rate =
				(crossingsIn(columns, cell) / (columns.sectors[cell] as number)) * sectorsPerHour(plan.scenario, point);
			if (rate > 0) seen += 1;
			expect(Math.abs(pair[choice].perHour - rate)).toBeLessThanOrEqual(1e-9 * rate);
		}
	}
	expect(seen).toBeGreaterThan(2);
});

test('a removal that turns lost lock into false crossings has cured the loss', () => {
	const lost = { ...early, lost: true, measured: 7 };
	expect(whatWentWrong(runs(lost, early, lost, lost, lost, lost), limits)[0]).toMatchObject({
		trouble: 'lost',
		cures: ['ringing'],
	});
});

test('a drive that only its comparator offset throws off is found to be', () => {
	const plan = demoPlan('fan-24v.json', { 'noise.sigma': 0, 'noise.ringAmplitude': 0, 'supply.rippleAmplitude': 0 });
	const board = {
		values: { ...plan.scenario.values, ...plan.scenario.points[0]?.values },
		deviations: { 'sensing.comparator.offset': [0.15, 0.15, 0.15] },
		compensation: plan.compensation,
	};
	const request = { plan, unit: 0, point: 0, start: 0, board };
	const { outcomes } = driveCauses(request, 0, removals.length + 1, () => {});
	const [halfBus] = whatWentWrong(outcomes, limits);
	expect(halfBus?.trouble).not.toBe('none');
	expect(halfBus?.cures).toEqual(['offset']);
});

test('every start of every point has its outcome, whatever range of indices it is asked in', () => {
	const plan = demoPlan('fan-24v.json', { 'trial.starts': 2 });
	const all = unitOutcomes({ plan, unit: 3 }, 0, 6, () => {}).outcomes;
	expect(all).toHaveLength(6);
	expect(unitOutcomes({ plan, unit: 3 }, 3, 5, () => {}).outcomes).toEqual(all.slice(3, 5));
});
