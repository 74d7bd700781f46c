import { describe, expect, it } from 'vitest';
import { risingCrossing } from '../../shared/drive/commutation-table.ts';
import { choiceNames } from '../../shared/drive/drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { driveWith, mean } from './drives.ts';

describe('symmetry of a balanced motor', () => {
	it.each(choiceNames)(
		'%s at duty 1, a whole number of PWM periods per sector: six settled angle errors agree to 10⁻⁶°',
		(choice) => {
			// 3000 rev/min, 4 pole pairs: a sector is 1/1200 s, 20 periods of 24 kHz
			const drive = driveWith({
				'inverter.pwmFrequency': 24e3,
				'supply.rippleAmplitude': 0,
				'operation.torque': 10,
				'detection.compensation': 75e-6,
				'trial.settle': 60,
				'trial.measured': 12,
			});
			const { errors, lost } = simulatePair(drive, silence)[choice];
			expect(lost).toBe(false);
			expect(errors.length).toBe(12);
			for (const error of errors) expect(Math.abs(error - (errors[0] as number))).toBeLessThan(1e-6);
		},
	);

	describe('complementary chopping, no dead time, filtered nodes', () => {
		const voltage = 48;
		const emf = (0.066 * 3000 * 2 * Math.PI) / 60;
		const duties: number[] = [];
		const rising: Record<string, number[]> = { halfBus: [], virtualNeutral: [] };
		const falling: Record<string, number[]> = { halfBus: [], virtualNeutral: [] };
		const phases = 8;
		for (let j = 0; j < phases; j++) {
			const drive = driveWith(
				{
					'inverter.chopping': 'complementary',
					'inverter.pwmFrequency': 200e3,
					'inverter.diodeDrop': 3, // keeps the open terminal off the diodes near the crossing
					'motor.emfConstant': 0.066,
					'motor.phaseInductance': 100e-6,
					'supply.voltage': voltage,
					'supply.rippleAmplitude': 0,
					'operation.torque': 0.02,
					'sensing.divider.top': 47e3,
					'sensing.halfBus.top': 98.7e3,
					'sensing.halfBus.bottom': 4.7e3,
					'sensing.virtualNeutral.star': 141e3,
					'sensing.virtualNeutral.ground': 4.7e3,
					'sensing.divider.capacitor': 20e-6 / ((47e3 * 4.7e3) / 51.7e3),
					'sensing.virtualNeutral.capacitor': 20e-6 * (3 / 141e3 + 1 / 4.7e3),
					'detection.window': 'whole',
					'detection.samples': 16,
					'detection.position': 0.5,
					'detection.majorityWindow': 1,
					'detection.majorityVotes': 1,
					'detection.blanking': 12,
					'sensing.comparator.latency': 0,
					'detection.compensation': 20e-6,
				},
				{ pwmPhase: (j + 0.5) / phases },
			);
			const pair = simulatePair(drive, silence);
			for (const choice of choiceNames) {
				for (const [n, error] of pair[choice].crossings.entries()) {
					(risingCrossing[n % 6] ? rising : falling)[choice]?.push(error);
				}
			}
			duties.push(pair.virtualNeutral.duties[pair.virtualNeutral.duties.length - 1] as number);
		}

		it('virtual neutral: rising and falling crossing errors agree to 0.05°', () => {
			expect(Math.abs(mean(rising.virtualNeutral ?? []) - mean(falling.virtualNeutral ?? []))).toBeLessThan(0.05);
		});

		it('half-bus: they part by (1 − d)V/2 through the EMF’s slope to each side', () => {
			const shift = (((1 - mean(duties)) * voltage) / 2 / emf) * 30;
			expect(shift).toBeGreaterThan(2);
			const half = (mean(rising.halfBus ?? []) - mean(falling.halfBus ?? [])) / 2;
			expect(Math.abs(half - shift)).toBeLessThan(0.02 * shift + 0.05);
		});
	});
});
