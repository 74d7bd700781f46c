import { signal } from '@preact/signals';
import { expect, test, vi } from 'vitest';
import { choiceNames } from '../../../shared/drive/drive.ts';
import { type DriveWindow, driveWindow, type SectorEvents } from '../../../shared/one-drive/drive-window.ts';
import { driveCauses, unitOutcomes } from '../../../shared/one-drive/unit-outcomes.ts';
import type { DriveLab } from '../../../src/host/drive-lab.ts';
import type { Baseline } from '../../../src/page/model/baseline.ts';
import { restingEvent } from '../../../src/page/model/one-drive/drive-events.ts';
import { createOneDrive } from '../../../src/page/model/one-drive/one-drive.ts';
import { readout } from '../../../src/page/model/one-drive/readout.ts';
import type { ViewName } from '../../../src/page/model/route.ts';
import type { Shown, StudyRequest } from '../../../src/page/model/services.ts';
import { demoPlan } from '../../one-drive/demo-plan.ts';
import { studyResult } from '../study-fixture.ts';

const { scenario } = demoPlan('fan-24v.json', { 'trial.starts': 2 });
const nothing = (): void => {};
const shownWith = (over: Parameters<typeof studyResult>[0] = {}): Shown => ({
	scenario,
	units: 1000,
	seed: 'demo',
	result: studyResult(over),
});

/** The engine itself, without a worker. */
const engine = (): DriveLab & { asked: string[] } => {
	const asked: string[] = [];
	return {
		asked,
		async outcomes(plan, unit) {
			asked.push(`outcomes ${unit}`);
			return unitOutcomes({ plan, unit }, 0, 6, nothing).outcomes;
		},
		async causes(request) {
			asked.push(`causes ${request.unit} ${request.point} ${request.start}${request.board ? ' board' : ''}`);
			return driveCauses(request, 0, 6, nothing).outcomes;
		},
		async window(request) {
			asked.push('window');
			return driveWindow({ ...request, columns: 50 });
		},
	};
};

function made({
	details = {},
	lab = engine(),
	shown = shownWith(),
	baseline = null,
}: {
	details?: Record<string, string>;
	lab?: DriveLab;
	shown?: Shown;
	baseline?: Shown | null;
} = {}) {
	const now = {
		shown: signal<Shown | null>(shown),
		request: signal<StudyRequest | null>(shown),
		baseline: signal<Baseline | null>(baseline && { shown: baseline, document: {} }),
		pointIndex: signal(0),
		view: signal<ViewName>('one-drive'),
		details: signal<Readonly<Record<string, string>>>(details),
	};
	const refine = (next: Readonly<Record<string, string>>): void => {
		now.details.value = next;
	};
	const drive = createOneDrive({ ...now, refine }, lab);
	return { ...now, drive };
}

test('without an address the worst drive is looked at, once 100 are finished, and stays', async () => {
	const early = shownWith({ units: { asked: 1000, finished: 60, failed: 0 } });
	const { drive, shown, details } = made({ shown: early });
	expect(drive.picked.value).toBeNull();
	shown.value = shownWith();
	expect(details.value).toEqual({ unit: '417', point: '0' });
	await vi.waitFor(() => expect(drive.diagnoses.value).toHaveLength(2));
	expect(drive.parts.value.length).toBeGreaterThan(30);
});

test('figures that come in later move nothing while seed, scenario and compensation stay', async () => {
	const lab = engine();
	const { drive, shown } = made({ details: { unit: '3', point: '1' }, lab });
	await vi.waitFor(() => expect(drive.diagnoses.value).toHaveLength(2));
	const before = lab.asked.length;
	shown.value = shownWith();
	await new Promise((resolve) => setTimeout(resolve, 20));
	expect(lab.asked.length).toBe(before);
});

test('the heading asks no drive that passes why it failed, and each choice is told what came of it over all starts', async () => {
	const lenient = { ...scenario, values: { ...scenario.values, 'requirement.angleLimit': 40 } };
	const { drive, shown } = made({ details: { unit: '3', point: '0' }, shown: { ...shownWith(), scenario: lenient } });
	await vi.waitFor(() =>
		expect(drive.diagnoses.value[0]?.verdict).toMatch(/^Over its 2 starts .*the drive passes at slow\.$/),
	);
	expect(drive.question.value).toBe('This drive passes at slow, and nothing went wrong');
	shown.value = {
		...shownWith(),
		scenario: { ...scenario, values: { ...scenario.values, 'requirement.angleLimit': 1 } },
	};
	await vi.waitFor(() => expect(drive.diagnoses.value[0]?.verdict).toMatch(/the drive fails at slow\.$/));
	expect(drive.question.value).toBe('Why did this drive fail?');
});

test('the start that goes worst is picked unless one is asked for', async () => {
	const { drive } = made({ details: { unit: '3', point: '0' } });
	await vi.waitFor(() => expect(drive.request.value).not.toBeNull());
	const { value } = drive.outcomes.value;
	const errors = (value ?? [])
		.slice(0, 2)
		.map((pair) => ('failure' in pair ? 0 : Math.max(pair.halfBus.judgedError, pair.virtualNeutral.judgedError)));
	expect(drive.request.value?.start).toBe(errors.indexOf(Math.max(...errors)));
	drive.pick({ start: 1 });
	expect(drive.request.value?.start).toBe(1);
});

test('another start or point of the same drive asks its starts no more, and there is a run to look at all along', async () => {
	const lab = engine();
	const { drive } = made({ details: { unit: '3', point: '0' }, lab });
	await vi.waitFor(() => expect(drive.request.value).not.toBeNull());
	const requests: unknown[] = [];
	drive.request.subscribe((request) => void requests.push(request));
	drive.pick({ start: 1 });
	drive.pick({ point: 1, start: null });
	await vi.waitFor(() => expect(lab.asked).toContain(`causes 3 1 ${drive.start.value}`));
	expect(requests).toHaveLength(3);
	expect(requests).not.toContain(null);
	expect(lab.asked.filter((what) => what.startsWith('outcomes'))).toEqual(['outcomes 3']);
	expect(drive.outcomes.value.state).toBe('done');
	drive.pick({ unit: 4, start: null });
	await vi.waitFor(() => expect(lab.asked).toContain('outcomes 4'));
});

test.each(['-1', '1.5', 'x', '99999999999', ''])('the index %j is no drive: nothing is simulated', async (unit) => {
	const lab = engine();
	const { drive } = made({ details: { unit }, lab });
	await new Promise((resolve) => setTimeout(resolve, 5));
	expect(drive.picked.value).toBeNull();
	expect(lab.asked).toEqual([]);
	if (unit !== '') expect(drive.unitProblem.value).toMatch(/is not the index of a drive/);
});

test('a point or start that the study has not is left at what it has', () => {
	const { drive } = made({ details: { unit: '5', point: '77', start: '9' } });
	expect(drive.picked.value).toEqual({ unit: 5, point: 0, start: null });
});

test('a board takes the drive’s place and is dropped again', async () => {
	const lab = engine();
	const { drive } = made({ details: { unit: '3', point: '0', start: '0' }, lab });
	drive.fillBoard();
	expect(drive.boardTyped.value).toContain('"case": "unit 3"');
	drive.typeBoard('{"cases": []}');
	drive.takeBoard();
	expect(drive.boardProblems.value.length).toBeGreaterThan(0);
	expect(drive.board.value).toBeNull();
	drive.fillBoard();
	drive.takeBoard();
	expect(drive.request.value?.board).toBeDefined();
	await vi.waitFor(() => expect(lab.asked).toContain('causes 3 0 0 board'));
	drive.dropBoard();
	expect(drive.request.value?.board).toBeUndefined();
});

const onBoard = (lab?: DriveLab) => {
	const found = made({ details: { unit: '3', point: '0', start: '0' }, ...(lab && { lab }) });
	found.drive.fillBoard();
	found.drive.takeBoard();
	expect(found.drive.board.value).not.toBeNull();
	return found;
};

type Found = ReturnType<typeof made>;
const elsewhere: Readonly<Record<string, (found: Found) => void>> = {
	unit: ({ drive }) => drive.pick({ unit: 4 }),
	point: ({ drive }) => drive.pick({ point: 1, start: null }),
	'point by its address': ({ details }) => {
		details.value = { unit: '3', point: '1' };
	},
	seed: ({ shown }) => {
		shown.value = { ...shownWith(), seed: 'other' };
	},
	scenario: ({ shown }) => {
		shown.value = { ...shownWith(), scenario: { ...scenario } };
	},
};

test.each(Object.entries(elsewhere))(
	'a board is let go when another %s is picked, never simulated there; its text stays',
	async (_what, pick) => {
		const lab = engine();
		const found = onBoard(lab);
		const { drive, details, shown } = found;
		const [at, of] = [details.value, shown.value];
		await vi.waitFor(() => expect(lab.asked).toContain('causes 3 0 0 board'));
		lab.asked.length = 0;
		pick(found);
		expect(drive.board.value).toBeNull();
		await vi.waitFor(() => expect(drive.diagnoses.value).toHaveLength(2));
		expect(lab.asked.filter((what) => what.endsWith('board'))).toEqual([]);
		expect(drive.boardTyped.value).toContain('"case": "unit 3"');
		details.value = at;
		shown.value = of;
		expect(drive.board.value).toBeNull();
	},
);

test('a board stays at another start of its drive, and the starts beside it are called the drawn drive’s', () => {
	const { drive } = onBoard();
	drive.pick({ start: 1 });
	expect(drive.request.value).toMatchObject({ start: 1, board: {} });
	expect(drive.startsOf.value).toBe('Starts of the drawn drive at this point');
	drive.dropBoard();
	expect(drive.startsOf.value).toBe('Its starts at this point');
});

test('what a link asks for and the study has not is told, until another is picked', () => {
	const shown = shownWith({ units: { asked: 60, finished: 60, failed: 0 } });
	const { drive } = made({ details: { unit: '99999999', point: '9', start: '2' }, shown: { ...shown, units: 60 } });
	expect(drive.reservations.value).toEqual([
		'The study has no drive 99\u202f999\u202f999: its 60 drives count from 0. This one is built by the same rules and is in none of its figures.',
		"The link's point “9” is not there: in a link points count from 0 to 2. Shown is slow.",
		"The link's start “2” is not there: in a link starts count from 0 to 1. The start that goes worst is shown.",
	]);
	drive.pick({ unit: 59, start: null });
	expect(drive.reservations.value).toEqual([]);
	const inOrder: readonly Record<string, string>[] = [{ unit: '5' }, { unit: '5', point: '2', start: '1' }, {}];
	for (const details of inOrder) {
		expect(made({ details }).drive.reservations.value).toEqual([]);
	}
});

test('a drive of other inputs than those in the form is said to be of those', () => {
	const { drive, request } = made({ details: { unit: '3' } });
	expect(drive.reservations.value).toEqual([]);
	const words = `These are the figures of “${scenario.name}”, 1000 drives, seed demo, not of the inputs as they are now.`;
	for (const other of [null, { scenario: { ...scenario }, units: 1000, seed: 'demo' }]) {
		request.value = other;
		expect(drive.reservations.value).toEqual([words]);
	}
});

test('what went wrong with one drive is not said of the next while its starts are simulated', async () => {
	const { drive } = made({ details: { unit: '3', point: '0' } });
	await vi.waitFor(() => expect(drive.diagnoses.value).toHaveLength(2));
	drive.pick({ unit: 4, start: null });
	expect(drive.request.value).toBeNull();
	expect(drive.diagnoses.value).toEqual([]);
	await vi.waitFor(() => expect(drive.diagnoses.value).toHaveLength(2));
});

test('a lab that fails says why, and another drive is looked at all the same', async () => {
	const lab = engine();
	let fails = true;
	const failing: DriveLab = {
		...lab,
		causes: (request) => (fails ? Promise.reject(new Error('the worker could not be loaded')) : lab.causes(request)),
		outcomes: (...given) =>
			fails ? Promise.reject(new Error('the worker could not be loaded')) : lab.outcomes(...given),
	};
	const { drive } = made({ details: { unit: '3' }, lab: failing });
	await vi.waitFor(() => expect(drive.failure.value).toBe('the worker could not be loaded'));
	fails = false;
	drive.pick({ unit: 4, start: null });
	await vi.waitFor(() => expect(drive.diagnoses.value).toHaveLength(2));
	expect(drive.failure.value).toBe('');
});

test('stepping to an event puts it in view with the cursor on it, and finer traces are asked for', async () => {
	const lab = engine();
	const { drive } = made({ details: { unit: '3', point: '0', start: '0' }, lab });
	const { scope } = drive;
	await vi.waitFor(() => expect(scope.view.value.to).toBe(scope.window.value?.end));
	const windows = lab.asked.filter((what) => what === 'window').length;
	scope.stepThrough('commutation');
	const found = scope.step(1);
	expect(found).not.toBeNull();
	expect(scope.cursor.value).toBe(found?.time);
	const { from, to } = scope.view.value;
	expect(to - from).toBeCloseTo((3.2 * 60) / (scope.window.value?.degreesPerSecond ?? 1), 9);
	expect(from < (found?.time ?? 0) && (found?.time ?? 0) < to).toBe(true);
	await vi.waitFor(() => expect(scope.work.value.state).toBe('done'));
	expect(lab.asked.filter((what) => what === 'window').length).toBe(windows + 1);
	scope.step(-1);
	expect(scope.event.value).toBe('No earlier one in this run.');
});

test('the cursor rests in the sector of the largest error, all read off, until it is put somewhere; stepping begins at the run’s start all the same', async () => {
	const { drive } = made({ details: { unit: '3', point: '0', start: '0' } });
	const { scope } = drive;
	await vi.waitFor(() => expect(scope.isOpening.value).toBe(false));
	for (const choice of choiceNames) {
		scope.pick(choice);
		const { sectors = [] } = scope.window.value?.runs[choice] ?? {};
		const counted = sectors.filter(({ measured }) => measured);
		expect(counted.length).toBeLessThan(sectors.length);
		const errors = counted.map(({ angleError }) => Math.abs(angleError));
		const worst = counted[errors.indexOf(Math.max(...errors))];
		expect(scope.cursor.value).toBe(worst?.acceptedAt);
		expect(scope.event.value).toMatch(/^Largest error: .*\sms, .*commutation/);
		const read = readout(scope.window.value as DriveWindow, scope.cursor.value as number, choice);
		expect(read.map(({ value }) => value).join()).not.toContain('–');
	}
	scope.stepThrough('commutation');
	expect(scope.step(1)?.time).toBe(scope.events.value[0]?.time);
	// put there, it stays where another choice is looked at
	const at = scope.cursor.value;
	scope.pick('halfBus');
	expect([scope.cursor.value, scope.event.value]).toEqual([at, '']);
});

test('a picture laid out anew keeps its view, and asks for finer traces alone', async () => {
	const lab = engine();
	const { drive } = made({ details: { unit: '3', point: '0', start: '0' }, lab });
	const { scope } = drive;
	await vi.waitFor(() => expect(scope.isOpening.value).toBe(false));
	scope.zoom(0.25);
	await vi.waitFor(() => expect(scope.work.value.state).toBe('done'));
	const before = { ...scope.view.value };
	const asked = lab.asked.filter((what) => what === 'window').length;
	scope.resize(640);
	await vi.waitFor(() => expect(lab.asked.filter((what) => what === 'window').length).toBe(asked + 1));
	await vi.waitFor(() => expect(scope.work.value.state).toBe('done'));
	expect(scope.view.value).toEqual(before);
	expect(lab.asked.filter((what) => what === 'window').length).toBe(asked + 1);
});

test('while another start is simulated the run before stays, marked as such', async () => {
	const { drive } = made({ details: { unit: '3', point: '0', start: '0' } });
	const { scope } = drive;
	await vi.waitFor(() => expect(scope.isOpening.value).toBe(false));
	const before = scope.window.value;
	drive.pick({ start: 1 });
	expect(scope.isOpening.value).toBe(true);
	expect(scope.window.value).toBe(before);
	await vi.waitFor(() => expect(scope.isOpening.value).toBe(false));
	expect(scope.window.value).not.toBe(before);
	expect(scope.view.value.to).toBe(scope.window.value?.end);
});

test('what is done while another start is simulated neither mixes the two nor is lost', async () => {
	const lab = engine();
	const gates: (() => void)[] = [];
	const gated: DriveLab = {
		...lab,
		async window(request) {
			await new Promise<void>((resolve) => gates.push(resolve));
			return lab.window(request);
		},
	};
	const { drive } = made({ details: { unit: '3', point: '0', start: '0' }, lab: gated });
	const { scope } = drive;
	gates[0]?.();
	await vi.waitFor(() => expect(scope.isOpening.value).toBe(false));
	scope.zoom(0.5);
	drive.pick({ start: 1 });
	expect(gates).toHaveLength(3);
	scope.zoom(0.5);
	scope.point(0.04);
	expect(scope.step(1)).toBeNull();
	scope.resize(500);
	gates[1]?.();
	await new Promise((resolve) => setTimeout(resolve, 20));
	scope.zoom(0.5);
	expect(gates).toHaveLength(3);
	gates[2]?.();
	await vi.waitFor(() => expect(scope.isOpening.value).toBe(false));
	const { drive: other } = made({ details: { unit: '3', point: '0', start: '1' } });
	await vi.waitFor(() => expect(other.scope.isOpening.value).toBe(false));
	expect(scope.event.value).toBe(other.scope.event.value);
	expect(scope.view.value).toEqual(other.scope.view.value);
	expect(scope.cursor.value).toBe(other.scope.cursor.value);
	// the picture was laid out anew meanwhile: it gets traces of its width
	expect(gates).toHaveLength(4);
});

test('a cursor that rests out of sight does not take the view along', async () => {
	const { drive } = made({ details: { unit: '3', point: '0', start: '0' } });
	const { scope } = drive;
	await vi.waitFor(() => expect(scope.isOpening.value).toBe(false));
	const { loopBegins = 0, end = 0 } = scope.window.value ?? {};
	const at = (scope.cursor.value ?? 0) > (loopBegins + end) / 2 ? loopBegins : end - (end - loopBegins) / 10;
	scope.show({ from: at, to: at + (end - loopBegins) / 10 });
	const before = { ...scope.view.value };
	scope.scrub(0.01);
	expect(scope.view.value).toEqual(before);
	expect(scope.cursor.value).toBeCloseTo(before.from + 0.51 * (before.to - before.from), 9);
});

test('a run that could not be simulated is asked for no finer traces', async () => {
	const lab = engine();
	let asked = 0;
	const failing: DriveLab = {
		...lab,
		window: () => {
			asked += 1;
			return Promise.reject(new Error('the worker could not be loaded'));
		},
	};
	const { drive } = made({ details: { unit: '3', point: '0', start: '0' }, lab: failing });
	await vi.waitFor(() => expect(drive.scope.work.value.state).toBe('failed'));
	await vi.waitFor(() => expect(drive.scope.isOpening.value).toBe(false));
	drive.scope.resize(500);
	drive.scope.zoom(0.5);
	expect(asked).toBe(1);
	expect(drive.scope.work.value.message).toBe('the worker could not be loaded');
});

test('the largest error is that of a measured sector, either way; without one the first of the closed loop is read', async () => {
	const { drive } = made({ details: { unit: '3', point: '0', start: '0' } });
	await vi.waitFor(() => expect(drive.scope.isOpening.value).toBe(false));
	const window = drive.scope.window.value as DriveWindow;
	const [, settling, first, second] = window.runs.halfBus.sectors as [
		SectorEvents,
		SectorEvents,
		SectorEvents,
		SectorEvents,
	];
	const sectors = [
		{ ...settling, measured: false, angleError: 9 },
		{ ...first, measured: true, angleError: 3 },
		{ ...second, measured: true, angleError: -5 },
	];
	const other = { ...window, runs: { ...window.runs, halfBus: { ...window.runs.halfBus, sectors } } };
	expect(restingEvent(other, 'halfBus')).toMatchObject({
		time: second.acceptedAt,
		words: expect.stringMatching(/^Largest error: .*5\.00° \(early\); its crossing in order/),
	});
	const settlingOnly = {
		...window,
		runs: { ...window.runs, halfBus: { ...window.runs.halfBus, sectors: window.runs.halfBus.sectors.slice(0, 2) } },
	};
	expect(restingEvent(settlingOnly, 'halfBus')).toMatchObject({
		time: settling.acceptedAt,
		words: expect.stringMatching(/^First sector: /),
	});
	const none = { ...window, runs: { ...window.runs, halfBus: { ...window.runs.halfBus, sectors: [] } } };
	expect(restingEvent(none, 'halfBus')).toBeNull();
});
