import { expect, test } from 'vitest';
import { choiceNames } from '../../shared/drive/drive.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { buildRequest } from '../../shared/one-drive/build-request.ts';
import { driveWindow, readingStride, recordWindow } from '../../shared/one-drive/drive-window.ts';
import { readingStates } from '../../shared/one-drive/replay-detection.ts';
import { unitDrives } from '../../shared/study/unit-drives.ts';
import { demoPlan } from './demo-plan.ts';

const demos = ['fan-24v.json', 'pump-12v.json', 'rectified-slow.json', 'spindle-48v.json'];

test.each(demos)('%s: the drive of a request is the drive of the study', (file) => {
	const plan = demoPlan(file);
	for (const { point, start, drive, noise } of unitDrives(plan, 7)) {
		const built = buildRequest({ plan, unit: 7, point, start });
		expect(built.drive).toEqual(drive);
		expect(built.noise.normal(30, 5)).toBe(noise.normal(30, 5));
	}
});

test.each(demos)(
	'%s: detection told again gives every crossing and commutation error that the run recorded',
	(file) => {
		let compared = 0;
		for (const { drive, noise } of unitDrives(demoPlan(file, { 'trial.starts': 2 }), 1)) {
			const pair = simulatePair(drive, noise);
			const { runs } = recordWindow(drive, noise, { from: 0, to: 1e-3, columns: 10 });
			for (const choice of choiceNames) {
				const told = runs[choice].sectors.filter(({ measured }) => measured);
				const { errors, crossings, measured } = pair[choice];
				expect(told.length).toBe(measured);
				for (let i = 0; i < measured; i++) {
					expect(told[i]?.angleError).toBeCloseTo(errors[i] as number, 6);
					if (Number.isNaN(crossings[i])) expect(told[i]?.crossingError).toBeNaN();
					else expect(told[i]?.crossingError).toBeCloseTo(crossings[i] as number, 6);
					compared += 1;
				}
			}
		}
		expect(compared).toBeGreaterThan(100);
	},
);

test.each([
	['converter and hysteresis', { 'sensing.converter.bits': 8, 'sensing.comparator.hysteresis': 0.02 }],
	['one interval and a late advance', { 'detection.intervalsAveraged': 1, 'detection.advance': -8 }],
	['noise enough to miss and mistake crossings', { 'noise.sigma': 0.4, 'detection.timeout': 1.1 }],
])('told again with %s, every sector still agrees', (_name, values) => {
	const plan = demoPlan('fan-24v.json', { ...values, 'trial.starts': 1 });
	let kinds = 0;
	for (const { drive, noise } of unitDrives(plan, 3)) {
		const pair = simulatePair(drive, noise);
		const { runs } = recordWindow(drive, noise, { from: 0, to: 1e-3, columns: 10 });
		for (const choice of choiceNames) {
			const told = runs[choice].sectors.filter(({ measured }) => measured);
			expect(runs[choice].lost).toBe(pair[choice].lost);
			expect(told.map(({ angleError }) => angleError.toFixed(6))).toEqual(
				[...pair[choice].errors].map((error) => error.toFixed(6)),
			);
			kinds += told.filter(({ kind }) => kind !== null).length;
		}
	}
	if ('noise.sigma' in values) expect(kinds).toBeGreaterThan(3);
});

test.each([0, 8])('with ringing of %d V the kernel reads the same nodes and thresholds, to 1 nV', (amplitude) => {
	// rings on until the sample in the on-window
	const slow = { 'noise.ringDecay': 20e-6, 'noise.ringFrequency': 50e3 };
	const plan = demoPlan('fan-24v.json', { ...slow, 'noise.sigma': 0, 'noise.ringAmplitude': amplitude });
	const { drive, noise } = buildRequest({ plan, unit: 2, point: 2, start: 0 });
	const pair = simulatePair(drive, noise, { readingSectors: 6 });
	const { runs } = recordWindow(drive, noise, { from: 0, to: 1, columns: 10 });
	for (const choice of choiceNames) {
		const { readings } = runs[choice];
		const told = new Map<number, readonly [number, number]>();
		for (let i = 0; i < readings.length; i += readingStride)
			told.set(Math.round((readings[i] as number) * 1e9), [readings[i + 1] as number, readings[i + 2] as number]);
		let compared = 0;
		for (const [time = 0, sense = 0, threshold = 0] of pair[choice].readings ?? []) {
			const found = told.get(Math.round(time * 1e9));
			if (!found) continue;
			const sector = runs[choice].sectors.find((one) => one.begin <= time && time <= one.commutation);
			const open = [2, 1, 0][(sector?.sector ?? 0) % 3] as 0;
			expect(found[0] - drive.sensing.comparator.offset[open]).toBeCloseTo(sense, 9);
			expect(found[1]).toBeCloseTo(threshold, 9);
			compared += 1;
		}
		expect(compared).toBeGreaterThan(80);
	}
});

test('a window of a whole run holds in each column what its two halves hold', () => {
	const request = { plan: demoPlan('fan-24v.json'), unit: 5, point: 2, start: 1 };
	const whole = driveWindow({ drive: request, from: 0, to: 0, columns: 40 });
	expect(whole.to).toBeCloseTo(whole.end, 12);
	const half = driveWindow({ drive: request, from: whole.to / 2, to: whole.to, columns: 20 });
	for (const name of ['terminalA', 'currentB', 'threshold'] as const) {
		const all = whole.runs.halfBus.traces[name];
		const part = half.runs.halfBus.traces[name];
		for (let column = 1; column < 19; column++) {
			// a finer picture may find a higher ring, not a lower one
			expect(part[2 * column + 1]).toBeGreaterThan((all[2 * (column + 20) + 1] as number) - 0.6);
			expect(part[2 * column]).toBeLessThan((all[2 * (column + 20)] as number) + 0.6);
		}
	}
	expect(whole.runs.halfBus.traces.torque.every((value) => !Number.isNaN(value))).toBe(true);
});

test.each([2e-4, 2e-6, 2e-8])('a window of %d s has a value in every column', (width) => {
	const drive = { plan: demoPlan('fan-24v.json'), unit: 5, point: 0, start: 0 };
	const from = 0.0412345678;
	const { runs } = driveWindow({ drive, from, to: from + width, columns: 1658 });
	for (const choice of choiceNames) {
		for (const ranges of Object.values(runs[choice].traces)) expect(ranges.findIndex(Number.isNaN)).toBe(-1);
	}
});

test('an accepted reading has the votes it needs, and nothing before it has', () => {
	const request = { plan: demoPlan('fan-24v.json'), unit: 0, point: 1, start: 0 };
	const { runs, votes } = driveWindow({ drive: request, from: 0, to: 0, columns: 100 });
	for (const choice of choiceNames) {
		const { readings, sectors } = runs[choice];
		for (const { begin, acceptedAt, blankedUntil } of sectors) {
			for (let i = 0; i < readings.length; i += readingStride) {
				const [time = 0, , , state, voted = 0] = readings.subarray(i, i + readingStride);
				if (time <= begin || !(time <= acceptedAt)) continue;
				if (time < blankedUntil) expect(state).toBe(readingStates.blanked);
				else if (time < acceptedAt) expect(voted < votes[0] || state === readingStates.notCrossed).toBe(true);
				else expect([state, voted]).toEqual([readingStates.crossed, votes[0]]);
			}
		}
	}
});
