import seedrandom from 'seedrandom';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { choiceNames, type Drive, type PairRecord } from '../../shared/drive/drive.ts';
import { Foregone } from '../../shared/drive/sensing/foregone.ts';
import { NetworkNode } from '../../shared/drive/sensing/network-node.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { keyedNoise } from '../../shared/sampling/keyed-noise.ts';
import type { Values } from '../../shared/scenario/scenario.ts';
import { driveWith } from './drives.ts';

// Readings that are passed over, against the same runs with every reading taken.

const noise = keyedNoise('foregone');
const random = seedrandom('foregone');
const between = (low: number, high: number) => low * (high / low) ** random();
const one = <T>(of: readonly T[]): T => of[Math.floor(of.length * random())] as T;
const spread = (size: number) => [0, 1, 2].map(() => size * (2 * random() - 1));

/** A drive from anywhere in the trade, and beyond: every setting that moves the comparator input is drawn. */
function anyDrive(): Drive {
	const speed = between(300, 4000);
	const window = one(['on', 'on', 'on', 'on', 'whole', 'off'] as const);
	const capacitor = between(100e-12, window === 'on' ? 2e-9 : 20e-9);
	const parameters: Values = {
		'operation.speed': speed,
		'operation.torque': between(0.004, 0.15),
		'motor.flatTop': between(90, 150),
		'motor.shape': one(['trapezoidal', 'trapezoidal', 'sinusoidal']),
		'inverter.chopping': window === 'off' ? 'complementary' : one(['high-side', 'low-side', 'complementary', 'both']),
		'inverter.deadTime': one([0, 1.5e-6]),
		'supply.rippleAmplitude': one([0, between(0.1, 3)]),
		'supply.rippleFrequency': between(100, 3000),
		'sensing.divider.capacitor': capacitor,
		'sensing.virtualNeutral.capacitor': one([capacitor, between(100e-12, 20e-9)]),
		'sensing.halfBus.capacitor': between(1e-9, 300e-9),
		'sensing.comparator.hysteresis': one([0, between(1e-3, 0.1)]),
		'sensing.converter.bits': one([0, 0, 8, 12]),
		'detection.window': window,
		'detection.samples': one([1, 2, 4]),
		'detection.position': between(0.2, 0.95),
		'detection.blanking': between(1, 20),
		'detection.advance': one([0, 10]),
		'detection.majorityWindow': one([1, 3, 7]),
		'detection.majorityVotes': 1,
		'detection.compensation': one([0, 75e-6]),
		'noise.sigma': one([0, between(1e-3, 0.1)]),
	};
	return driveWith(parameters, {
		'motor.phaseResistance': spread(0.1),
		'motor.phaseInductance': spread(0.1),
		'motor.emfConstant': spread(0.03),
		'motor.placement': spread(1),
		'sensing.divider.top': spread(0.02),
		pwmPhase: random(),
		ripplePhase: random(),
	});
}

afterEach(() => vi.restoreAllMocks());

const run = (drive: Drive, j: number): PairRecord => simulatePair(drive, noise.forRun(j, 0, 0), { chances: true });

/** The same, every reading taken. */
function runInFull(drive: Drive, j: number): PairRecord {
	const spy = vi.spyOn(Foregone.prototype, 'periods', 'get').mockReturnValue(0);
	const record = run(drive, j);
	spy.mockRestore();
	return record;
}

describe('readings whose outcome is certain', () => {
	it('are not worked out, which changes no crossing of a hundred drives of any kind, and no chance by a millionth', () => {
		let passedOver = 0;
		const original = Object.getOwnPropertyDescriptor(Foregone.prototype, 'periods')?.get as () => number;
		for (let j = 0; j < 100; j++) {
			const drive = anyDrive();
			vi.spyOn(Foregone.prototype, 'periods', 'get').mockImplementation(function (this: Foregone) {
				const periods = original.call(this);
				passedOver += periods;
				return periods;
			});
			const quick = run(drive, j);
			vi.restoreAllMocks();
			const full = runInFull(drive, j);
			for (const name of choiceNames) {
				const where = `drive ${j}, ${name}`;
				const mine = quick[name];
				const theirs = full[name];
				expect(mine.lost, where).toBe(theirs.lost);
				expect(mine.causes, where).toEqual(theirs.causes);
				expect(mine.errors.length, where).toBe(theirs.errors.length);
				for (const [n, error] of theirs.errors.entries()) {
					expect(Math.abs((mine.errors[n] as number) - error), `${where}, sector ${n}`).toBeLessThan(1e-7);
				}
				for (const kind of ['early', 'late', 'missed'] as const) {
					for (const [n, chance] of (theirs.chances?.[kind] ?? []).entries()) {
						const off = Math.abs((mine.chances?.[kind][n] as number) - chance);
						expect(off, `${where}, sector ${n}, ${kind}`).toBeLessThan(1e-6 * chance + 1e-30);
					}
				}
			}
		}
		expect(passedOver).toBeGreaterThan(4_000);
	});

	it('are four in ten of a slow drive’s', () => {
		const drive = driveWith({ 'operation.speed': 900, 'operation.torque': 0.03, 'noise.sigma': 2e-3 }, {});
		const reads = vi.spyOn(NetworkNode.prototype, 'read');
		run(drive, 0);
		const quick = reads.mock.calls.length;
		reads.mockClear();
		runInFull(drive, 0);
		expect(quick).toBeLessThan(0.6 * reads.mock.calls.length);
	});
});
