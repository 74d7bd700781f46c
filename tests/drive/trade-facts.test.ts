import { describe, expect, it } from 'vitest';
import { Circuit } from '../../shared/drive/circuit.ts';
import { highPhase, lowPhase, openPhase, risingCrossing } from '../../shared/drive/commutation-table.ts';
import { choiceNames } from '../../shared/drive/drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { driveWith, mean, observeRun } from './drives.ts';

// Common practice of the trade; no source.

describe('what every engineer of these drives knows', () => {
	it('a sector is 60° and six make an electrical revolution', () => {
		const ends: number[] = [];
		const drive = driveWith();
		observeRun(drive, (stage, choice) => {
			if (choice === 'warmup' && stage.boundary === 'limit') ends.push(stage.time + stage.length);
		});
		const revolution = 60 / 3000 / 4;
		for (let n = 6; n < ends.length; n++)
			expect((ends[n] as number) - (ends[n - 6] as number)).toBeCloseTo(revolution, 12);
		for (let n = 1; n < ends.length; n++)
			expect((ends[n] as number) - (ends[n - 1] as number)).toBeCloseTo(revolution / 6, 12);
	});

	it('electrical speed is mechanical speed times pole pairs', () => {
		for (const pairs of [1, 4, 7]) {
			const circuit = new Circuit();
			circuit.load(driveWith({ 'motor.polePairs': pairs }));
			expect(circuit.omega).toBeCloseTo(circuit.omegaMechanical * pairs, 9);
		}
	});

	it('in each sector two phases are driven and one is open, each phase open twice a revolution: once rising, once falling', () => {
		const openings: string[] = [];
		for (let kind = 0; kind < 6; kind++) {
			const roles = [highPhase[kind], lowPhase[kind], openPhase[kind]];
			expect(new Set(roles).size).toBe(3);
			openings.push(`${openPhase[kind]}${risingCrossing[kind] ? '↑' : '↓'}`);
		}
		expect(new Set(openings).size).toBe(6);
	});

	it('back-EMF grows with speed', () => {
		const peak = (speed: number) => {
			const circuit = new Circuit();
			circuit.load(driveWith({ 'operation.speed': speed }));
			return circuit.emfPeak[0] as number;
		};
		expect(peak(2000)).toBeCloseTo(2 * peak(1000), 12);
	});

	it('below some speed detection fails: with 5 mV offsets 1500 rev/min is held and 40 rev/min is not', () => {
		const offsets = { 'sensing.comparator.offset': [5e-3, -5e-3, 5e-3] };
		const run = (speed: number) =>
			simulatePair(
				driveWith(
					{
						'operation.speed': speed,
						'operation.torque': 0.02,
						'supply.rippleAmplitude': 0,
						'inverter.pwmFrequency': 10e3,
					},
					offsets,
				),
				silence,
			);
		for (const choice of choiceNames) {
			const fast = run(1500)[choice];
			expect(fast.lost).toBe(false);
			expect(Math.max(...fast.errors.map(Math.abs))).toBeLessThan(10);
			const slow = run(40)[choice];
			const failed = slow.lost || slow.crossings.some((x) => Number.isNaN(x) || Math.abs(x) > 10);
			expect(failed).toBe(true);
		}
	});

	it('filtered half-bus sensing shifts rising and falling crossings in opposite directions when the mean voltage is below the bus', () => {
		const drive = driveWith({
			'inverter.chopping': 'complementary',
			'operation.torque': 0.05,
			'supply.rippleAmplitude': 0,
			'sensing.divider.capacitor': 10e-9,
			'sensing.virtualNeutral.capacitor': 10e-9,
			'detection.window': 'whole',
			'detection.samples': 8,
			'detection.position': 0.5,
			'detection.compensation': 40e-6,
		});
		const pair = simulatePair(drive, silence);
		const of = (choice: 'halfBus' | 'virtualNeutral', up: boolean) =>
			mean(pair[choice].crossings.filter((_, n) => risingCrossing[n % 6] === up));
		expect(of('halfBus', true)).toBeGreaterThan(1);
		expect(of('halfBus', false)).toBeLessThan(-1);
		expect(Math.abs(of('virtualNeutral', true) - of('virtualNeutral', false))).toBeLessThan(
			0.3 * (of('halfBus', true) - of('halfBus', false)),
		);
	});
});
