import { referenceTemperature } from '../parameters/acting-parts.ts';
import type { Values } from '../scenario/scenario.ts';
import type { Chopping, Drive, PerChoice, Phases, SamplingWindow } from './drive.ts';

/**
 * One unit's deviations by parameter id: relative, but in the parameter's own
 * unit for placement, flat top (degrees), offset (V) and the resistors'
 * temperature coefficients (1/K, 12: divider top a b c, bottom a b c, bus top,
 * bus bottom, star a b c, ground). A single number serves all instances. Also
 * `pwmPhase`, `ripplePhase` and `ringPhase`, 0…1 of a turn. Absent ones are 0.
 */
export type Deviations = Readonly<Record<string, number | readonly number[]>>;

/**
 * The drive that a unit's deviations and an operating point's conditions make
 * of the nominal values.
 *
 * @param values every parameter id → nominal value (conditions included)
 * @param compensation seconds, for each choice
 * @throws Error for a value, deviation or compensation that is no finite number: every comparison with NaN is false, so that such a drive would run and look sound
 */
export function buildDrive(values: Values, deviations: Deviations, compensation: PerChoice<number>): Drive {
	const number = (id: string): number => {
		const value = values[id];
		return finite(id, value);
	};
	const deviation = (id: string, instance: number): number => {
		const given = deviations[id];
		if (given === undefined) return 0;
		return finite(`the deviation of ${id}`, typeof given === 'number' ? given : (given[instance] ?? 0));
	};
	const relative = (id: string, instance = 0): number => number(id) * (1 + deviation(id, instance));
	const absolute = (id: string, instance = 0): number => number(id) + deviation(id, instance);
	const threeOf = (make: (k: number) => number): Phases => [make(0), make(1), make(2)];

	const boardRise = number('operation.boardTemperature') - referenceTemperature;
	const motorRise = number('operation.motorTemperature') - referenceTemperature;
	const copper = 1 + number('motor.copperCoefficient') * motorRise;
	const magnet = 1 + number('motor.magnetCoefficient') * motorRise;
	/** R(T) = R0 [1 + α (T − T0)]; `place` is the resistor's index among the twelve. */
	const resistor = (id: string, instance: number, place: number): number =>
		relative(id, instance) * (1 + absolute('sensing.resistorCoefficient', place) * boardRise);
	const bits = values['sensing.converter.bits'];

	return {
		motor: {
			polePairs: number('motor.polePairs'),
			sinusoidal: values['motor.shape'] === 'sinusoidal',
			phaseResistance: threeOf((k) => relative('motor.phaseResistance', k) * copper),
			phaseInductance: threeOf((k) => relative('motor.phaseInductance', k)),
			emfConstant: threeOf((k) => relative('motor.emfConstant', k) * magnet),
			flatTop: absolute('motor.flatTop'),
			placement: threeOf((k) => absolute('motor.placement', k)),
		},
		inverter: {
			pwmFrequency: number('inverter.pwmFrequency'),
			chopping: values['inverter.chopping'] as Chopping,
			deadTime: number('inverter.deadTime'),
			switchResistance: number('inverter.switchResistance'),
			diodeDrop: number('inverter.diodeDrop'),
			shuntResistance: number('inverter.shuntResistance'),
		},
		supply: {
			voltage: relative('supply.voltage'),
			rippleAmplitude: relative('supply.rippleAmplitude'),
			rippleFrequency: number('supply.rippleFrequency'),
			ripplePhase: deviation('ripplePhase', 0),
		},
		operation: {
			speed: relative('operation.speed'),
			torque: relative('operation.torque'),
			pwmPhase: deviation('pwmPhase', 0),
		},
		sensing: {
			divider: {
				top: threeOf((k) => resistor('sensing.divider.top', k, k)),
				bottom: threeOf((k) => resistor('sensing.divider.bottom', k, 3 + k)),
				capacitor: threeOf((k) => relative('sensing.divider.capacitor', k)),
			},
			halfBus: {
				top: resistor('sensing.halfBus.top', 0, 6),
				bottom: resistor('sensing.halfBus.bottom', 0, 7),
				capacitor: relative('sensing.halfBus.capacitor'),
			},
			virtualNeutral: {
				star: threeOf((k) => resistor('sensing.virtualNeutral.star', k, 8 + k)),
				ground: resistor('sensing.virtualNeutral.ground', 0, 11),
				capacitor: relative('sensing.virtualNeutral.capacitor'),
			},
			comparator: {
				offset: threeOf((k) => absolute('sensing.comparator.offset', k)),
				hysteresis: number('sensing.comparator.hysteresis'),
				latency: number('sensing.comparator.latency'),
			},
			converter: { bits: typeof bits === 'number' ? bits : 0, fullScale: number('sensing.converter.fullScale') },
		},
		detection: {
			window: values['detection.window'] as SamplingWindow,
			samples: number('detection.samples'),
			position: number('detection.position'),
			majorityWindow: number('detection.majorityWindow'),
			majorityVotes: number('detection.majorityVotes'),
			blanking: number('detection.blanking'),
			intervalsAveraged: number('detection.intervalsAveraged'),
			advance: number('detection.advance'),
			compensation: {
				halfBus: finite('the half-bus compensation', compensation.halfBus),
				virtualNeutral: finite('the virtual-neutral compensation', compensation.virtualNeutral),
			},
			timeout: number('detection.timeout'),
		},
		noise: {
			sigma: number('noise.sigma'),
			ringAmplitude: number('noise.ringAmplitude'),
			ringFrequency: number('noise.ringFrequency'),
			ringDecay: number('noise.ringDecay'),
			ringCoupling: relative('noise.ringCoupling'),
			ringPhase: deviation('ringPhase', 0),
			ringPhaseSpread: number('noise.ringPhaseSpread'),
		},
		trial: {
			warmup: number('trial.warmup'),
			settle: number('trial.settle'),
			measured: number('trial.measured'),
			falseMargin: number('trial.falseMargin'),
			lostLimit: number('trial.lostLimit'),
		},
	};
}

function finite(name: string, value: unknown): number {
	if (typeof value === 'number' && Number.isFinite(value)) return value;
	throw new Error(`${name} must be a finite number here, not ${String(value)}`);
}
