import seedrandom from 'seedrandom';
import type { Drive } from '../../shared/drive/drive.ts';
import type { Values } from '../../shared/scenario/scenario.ts';
import { driveWith } from './drives.ts';

/**
 * A drive from anywhere in the trade, and beyond: motor, bus, chopping, sensing
 * and detection drawn far apart, down to four PWM periods a sector and windings
 * that forget their current within one. Without noise; rings of one phase.
 *
 * @param seed the drive hangs on it alone
 */
export function anyDrive(seed: string, parameters: Values = {}): Drive {
	const random = seedrandom(seed);
	const between = (low: number, high: number) => low * (high / low) ** random();
	const one = <T>(of: readonly T[]): T => of[Math.floor(of.length * random())] as T;
	const spread = (size: number) => [0, 1, 2].map(() => size * (2 * random() - 1));
	const window = one(['on', 'on', 'whole', 'off']);
	const capacitor = between(50e-12, 20e-9);
	const polePairs = one([1, 2, 4, 7]);
	const resistance = between(0.03, 3);
	const inductance = resistance * between(1e-4, 3e-3);
	const voltage = between(9, 300);
	const speed = between(200, 6000);
	const emfConstant = (voltage * between(0.05, 0.48)) / ((speed * Math.PI) / 30);
	const torque = 2 * emfConstant * (voltage / resistance) * between(0.003, 0.15);
	const pwmFrequency = (speed / 60) * polePairs * 6 * between(4, 60);
	const drawn: Values = {
		'operation.speed': speed,
		'operation.torque': torque,
		'supply.voltage': voltage,
		'motor.polePairs': polePairs,
		'motor.phaseResistance': resistance,
		'motor.phaseInductance': inductance,
		'motor.emfConstant': emfConstant,
		'motor.flatTop': between(60, 170),
		'motor.shape': one(['trapezoidal', 'trapezoidal', 'sinusoidal']),
		'inverter.pwmFrequency': pwmFrequency,
		'inverter.chopping': one(['high-side', 'low-side', 'complementary', 'both']),
		'inverter.switchResistance': resistance * between(0.003, 0.2),
		'inverter.diodeDrop': between(0.2, 1.2),
		'inverter.shuntResistance': one([0, resistance * between(0.01, 0.2)]),
		'supply.rippleAmplitude': one([0, voltage * between(0.005, 0.15)]),
		'supply.rippleFrequency': between(30, 3000),
		'sensing.divider.capacitor': capacitor,
		'sensing.virtualNeutral.capacitor': one([capacitor, between(50e-12, 20e-9)]),
		'sensing.halfBus.capacitor': between(1e-9, 300e-9),
		'sensing.comparator.hysteresis': one([0, between(1e-3, 0.1)]),
		'sensing.comparator.latency': one([0, 1e-6, between(1e-7, 60e-6)]),
		'sensing.converter.bits': one([0, 0, 8, 12]),
		'sensing.converter.fullScale': voltage * 0.2,
		'detection.window': window,
		'detection.samples': one([1, 2, 4]),
		'detection.position': between(0.2, 0.95),
		'detection.blanking': between(1, 25),
		'detection.advance': one([0, 10, 25]),
		'detection.majorityWindow': one([1, 3, 7]),
		'detection.intervalsAveraged': one([1, 2, 3, 6]),
		'detection.timeout': between(1.05, 2),
		'detection.compensation': one([0, between(1e-6, 100e-6)]),
		'noise.ringAmplitude': one([0, 0, voltage * between(0.01, 0.4)]),
		'noise.ringFrequency': between(1e5, 3e6),
		'noise.ringDecay': between(2e-7, 5e-6),
		'noise.ringPhaseSpread': 0,
		'trial.warmup': 6,
		'trial.settle': one([0, 3]),
		'trial.measured': 9,
		'inverter.deadTime': one([0, between(1e-7, 0.4 / pwmFrequency)]),
	};
	const votes = 1 + Math.floor((drawn['detection.majorityWindow'] as number) * random());
	return driveWith(
		{ ...drawn, 'detection.majorityVotes': votes, ...parameters },
		{
			'motor.phaseResistance': spread(0.15),
			'motor.phaseInductance': spread(0.15),
			'motor.emfConstant': spread(0.05),
			'motor.placement': spread(2),
			'sensing.divider.top': spread(0.02),
			'sensing.virtualNeutral.star': spread(0.02),
			'sensing.comparator.offset': spread(0.005),
			pwmPhase: random(),
			ripplePhase: random(),
			ringPhase: random(),
		},
	);
}
