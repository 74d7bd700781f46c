import { afterEach, describe, expect, it, vi } from 'vitest';
import { choiceNames, type Drive, type PairRecord } from '../../shared/drive/drive.ts';
import { Foregone } from '../../shared/drive/sensing/foregone.ts';
import { NetworkNode } from '../../shared/drive/sensing/network-node.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { keyedNoise } from '../../shared/sampling/keyed-noise.ts';
import { anyDrive } from './any-drive.ts';
import { driveWith } from './drives.ts';

// Readings that are passed over, against the same runs with every reading taken.

const noise = keyedNoise('foregone');
afterEach(() => vi.restoreAllMocks());

const run = (drive: Drive, j: number): PairRecord => simulatePair(drive, noise.forRun(j, 0, 0), { chances: true });

/** The same, every reading taken. */
function runInFull(drive: Drive, j: number): PairRecord {
	const spy = vi.spyOn(Foregone.prototype, 'periods').mockReturnValue(0);
	const record = run(drive, j);
	spy.mockRestore();
	return record;
}

/** Fails where passing readings over changes a crossing, a cause, or a chance by a millionth; how many periods were passed over. */
function expectSame(drive: Drive, j: number): number {
	const original = Foregone.prototype.periods;
	let passedOver = 0;
	const spy = vi.spyOn(Foregone.prototype, 'periods').mockImplementation(function (this: Foregone, ...place) {
		const periods = original.apply(this, place);
		passedOver += periods;
		return periods;
	});
	const quick = run(drive, j);
	spy.mockRestore();
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
	return passedOver;
}

describe('readings whose outcome is certain', () => {
	it('are not worked out, which changes no crossing of a thousand drives of any kind, and no chance by a millionth', () => {
		let passedOver = 0;
		for (let j = 0; j < 1000; j++) {
			const drive = anyDrive(`foregone ${j}`, {
				'noise.sigma': j % 2 === 0 ? 0 : 10 ** (-3 + j / 500),
				'detection.majorityVotes': 1,
			});
			passedOver += expectSame(drive, j);
		}
		expect(passedOver).toBeGreaterThan(3_000);
	}, 120_000);

	it('are none that unequal phases, a shunt, ramps of driven phases or a clamp of the off-window bring nearer: 400 drives read from the commutation on', () => {
		for (let j = 0; j < 400; j++) {
			expectSame(
				anyDrive(`near ${j}`, {
					'motor.flatTop': j % 3 === 0 ? 61 : 75,
					'inverter.shuntResistance': j % 2 === 0 ? 0 : 0.1,
					'detection.window': 'on',
					'detection.samples': 1,
					'detection.majorityVotes': 1,
					'detection.blanking': j % 4 === 0 ? 0 : 8,
					'noise.ringAmplitude': 0,
					'sensing.divider.capacitor': 50e-12,
					'sensing.virtualNeutral.capacitor': j % 5 === 0 ? 150e-12 : 50e-12,
				}),
				j,
			);
		}
	}, 120_000);

	it('are more than half of a slow drive’s', () => {
		const drive = driveWith({ 'operation.speed': 900, 'operation.torque': 0.03, 'noise.sigma': 2e-3 }, {});
		const reads = vi.spyOn(NetworkNode.prototype, 'read');
		run(drive, 0);
		const quick = reads.mock.calls.length;
		reads.mockClear();
		runInFull(drive, 0);
		expect(quick).toBeLessThan(0.5 * reads.mock.calls.length);
	});
});
