import { signal } from '@preact/signals';
import { expect, test, vi } from 'vitest';
import type { PerChoice } from '../../../shared/drive/drive.ts';
import type { DriveRequest } from '../../../shared/one-drive/drive-request.ts';
import { driveWindow } from '../../../shared/one-drive/drive-window.ts';
import { type PointVerdict, pointVerdicts } from '../../../shared/one-drive/point-verdict.ts';
import { unitOutcomes } from '../../../shared/one-drive/unit-outcomes.ts';
import type { OperatingPoint, Scenario } from '../../../shared/scenario/scenario.ts';
import type { DriveLab } from '../../../src/host/drive-lab.ts';
import type { Baseline } from '../../../src/page/model/baseline.ts';
import { createBaselineDrive, wasWords } from '../../../src/page/model/one-drive/baseline-drive.ts';
import type { Shown } from '../../../src/page/model/services.ts';
import { demoPlan } from '../../one-drive/demo-plan.ts';
import { studyResult } from '../study-fixture.ts';

const starts = 2;
const present = demoPlan('fan-24v.json', { 'trial.starts': starts });
const shownOf = (scenario: Scenario, seed = 'demo'): Shown => {
	const result = studyResult();
	const compensation = present.compensation;
	return {
		scenario,
		units: 1000,
		seed,
		result: { ...result, provenance: { ...result.provenance, scenarioDigest: '', compensation } },
	};
};
/** With an offset of its own, so that the same drive did otherwise. */
const earlier = demoPlan('fan-24v.json', { 'trial.starts': starts, 'sensing.comparator.offset': 0.05 }).scenario;

const lab = (over: Partial<DriveLab> = {}): DriveLab & { readonly asked: string[] } => {
	const asked: string[] = [];
	return {
		asked,
		async outcomes(plan, unit) {
			asked.push('outcomes');
			return unitOutcomes({ plan, unit }, 0, plan.scenario.points.length * starts, () => {}).outcomes;
		},
		causes: () => Promise.reject(new Error('not asked')),
		async window(request) {
			asked.push('window');
			return driveWindow(request);
		},
		...over,
	};
};

function made(pinned: Shown | null, request: Partial<DriveRequest> = {}, engine = lab()) {
	const point = present.scenario.points[0] as OperatingPoint;
	const verdicts = pointVerdicts(
		unitOutcomes({ plan: present, unit: 19 }, 0, starts, () => {}).outcomes,
		present.scenario,
		point,
	);
	const seen = {
		baseline: signal<Baseline | null>(pinned && { shown: pinned, document: {} }),
		shown: signal<Shown | null>(shownOf(present.scenario)),
		request: signal<DriveRequest | null>({ plan: present, unit: 19, point: 0, start: 1, ...request }),
		verdicts: signal<PerChoice<PointVerdict> | null>(verdicts),
	};
	return { ...seen, drive: createBaselineDrive(seen, engine), asked: engine.asked };
}

const plain = (text: string | undefined): string => (text ?? '').replaceAll(/[\u00a0\u202f]/g, ' ');

test('the same drive is held against itself under the baseline’s inputs: over its starts, from a start, sector by sector', async () => {
	const { drive } = made(shownOf(earlier));
	expect(drive.note.value).toMatch(/^The same drive under the baseline's inputs is being simulated/);
	await vi.waitFor(() => expect(drive.note.value).toBe(''));
	const plan = { ...present, scenario: earlier };
	const { outcomes } = unitOutcomes({ plan, unit: 19 }, 0, starts, () => {});
	const before = pointVerdicts(outcomes, earlier, earlier.points[0] as OperatingPoint)?.halfBus;
	const { lead = '', basis = '' } = drive.change.value ?? {};
	expect(plain(lead)).toMatch(
		/^Since the baseline, the same drive at slow: half-bus \d+\.\d+° →\s\d+\.\d+°, [+−]\d+\.\d+° \((passes|fails)( →\s(passes|fails))?\); virtual neutral /,
	);
	expect(lead).toContain(`half-bus ${before?.judgedError.toFixed(2)}° →`);
	expect(plain(basis)).toContain('one drive is exact, so there is no interval');
	const [, second] = outcomes;
	if (!second || 'failure' in second) throw new Error('not simulated');
	expect(drive.wasFrom(1, 'virtualNeutral', 1)).toBe(wasWords(second.virtualNeutral.judgedError, 1).replace('+', ''));
	const { runs, degreesPerSecond } = driveWindow({
		drive: { plan, unit: 19, point: 0, start: 1 },
		from: 0,
		to: 0,
		columns: 9,
	});
	for (const events of runs.halfBus.sectors)
		expect(drive.sectors.value?.halfBus.get(events.sector)?.angleError).toBe(events.angleError);
	expect(drive.marksAt(degreesPerSecond)?.runs.halfBus.sectors).toHaveLength(runs.halfBus.sectors.length);
	expect(drive.noMarks(degreesPerSecond)).toBe('');
	expect(drive.marksAt(2 * degreesPerSecond)).toBeNull();
	expect(drive.noMarks(2 * degreesPerSecond)).toMatch(/turns at another speed: its marks are not in the picture\.$/);
});

test('another start asks the baseline’s starts no more; a point that moved within the file is found by its name, at the same moments', async () => {
	const turned = { ...earlier, points: earlier.points.toReversed() };
	const { drive, request, asked } = made(shownOf(turned));
	await vi.waitFor(() => expect(drive.note.value).toBe(''));
	const straight = made(shownOf(earlier));
	await vi.waitFor(() => expect(straight.drive.note.value).toBe(''));
	expect(drive.change.value).toEqual(straight.drive.change.value);
	request.value = { plan: present, unit: 19, point: 0, start: 0 };
	await vi.waitFor(() => expect(drive.note.value).toBe(''));
	expect(asked).toEqual(['window', 'outcomes', 'window']);
});

test('a baseline of another seed has its own drive of the index shown, the very one that it counted, and every text says that it is another', async () => {
	// the points turned: its own order decides which moments its drive met
	const turned = { ...earlier, points: earlier.points.toReversed() };
	const point = turned.points.findIndex(({ name }) => name === 'slow');
	const { drive } = made({ ...shownOf(turned, 'other'), units: 10 });
	expect(drive.note.value).toBe("The baseline's own drive of this index is being simulated …");
	await vi.waitFor(() => expect(drive.note.value).toBe(''));
	const plan = { scenario: turned, seed: 'other', compensation: present.compensation };
	const { outcomes } = unitOutcomes({ plan, unit: 19 }, 0, starts * turned.points.length, () => {});
	const own = outcomes.slice(point * starts, (point + 1) * starts);
	const counted = pointVerdicts(own, turned, turned.points[point] as OperatingPoint)?.halfBus;
	const { lead = '', basis = '' } = drive.change.value ?? {};
	expect(lead).toMatch(/^Against the baseline's drive 19 at slow, which is another drive: half-bus /);
	expect(lead).toContain(`half-bus ${counted?.judgedError.toFixed(2)}° →`);
	expect(plain(basis)).toContain(
		'Seed other draws other parts, moments and noise than seed demo: more than the inputs sets the two apart.',
	);
	expect(plain(basis)).toContain("Drive 19 lies beyond the baseline's 10 drives and is in none of its figures.");
	const [, second] = own;
	if (!second || 'failure' in second) throw new Error('not simulated');
	expect(drive.wasFrom(1, 'virtualNeutral', 1)).toBe(`baseline's ${second.virtualNeutral.judgedError.toFixed(2)}°`);
	expect(drive.was(2, 1)).toBe("baseline's +2.00°");

	// the same inputs with another seed are another result, not the baseline itself
	const reseeded = made(shownOf(present.scenario, 'other'));
	await vi.waitFor(() => expect(reseeded.drive.change.value).not.toBeNull());
	expect(reseeded.drive.change.value?.basis).not.toContain('lies beyond');
	const broken = lab({ outcomes: async () => [{ failure: 'no solution' }, { failure: 'no solution' }] });
	const failed = made(shownOf(earlier, 'other'), {}, broken);
	await vi.waitFor(() =>
		expect(failed.drive.note.value).toBe("The baseline's own drive of this index could not be simulated: no solution"),
	);
});

test.each([
	['no baseline', null, ''],
	['the baseline itself', shownOf(present.scenario), ''],
	[
		'a baseline without the point',
		shownOf({ ...earlier, points: earlier.points.slice(1) }),
		'The baseline has no point slow to hold this drive against.',
	],
	[
		'a baseline with other starts',
		shownOf(demoPlan('fan-24v.json', { 'trial.starts': 3 }).scenario),
		'The baseline has 3 starts a point, not 2: none of them meets the moments of this one.',
	],
])('with %s nothing is simulated, and what is missing is told', (_what, pinned, words) => {
	const { drive, asked } = made(pinned);
	expect([drive.note.value, drive.change.value, drive.sectors.value, asked]).toEqual([words, null, null, []]);
});

test('a board has no counterpart, and a baseline’s drive that cannot be simulated says why', async () => {
	const board = { values: present.scenario.values, deviations: {}, compensation: present.compensation };
	expect(made(shownOf(earlier), { board }).drive.note.value).toBe(
		'A measured board has no counterpart in the baseline.',
	);
	const broken = lab({ outcomes: async () => [{ failure: 'no solution' }, { failure: 'no solution' }] });
	const { drive } = made(shownOf(earlier), {}, broken);
	await vi.waitFor(() =>
		expect(drive.note.value).toBe("The same drive under the baseline's inputs could not be simulated: no solution"),
	);
	expect(drive.change.value).toBeNull();
});
