import type { Values } from './scenario.ts';

/** What an engineer works out on paper about the nominal drive at one operating point. SI units, electrical degrees. */
export interface NominalFigures {
	/** Electrical degrees per second. */
	readonly degreesPerSecond: number;
	/** Duration of a sector, s. */
	readonly sector: number;
	/** PWM period, s. */
	readonly period: number;
	readonly voltage: number;
	/** Peak phase EMF, V. */
	readonly emf: number;
	/** Slope of the open phase's EMF at its crossing, V per degree. */
	readonly emfSlope: number;
	/** Conducted current, A. */
	readonly current: number;
	/** Motor voltage that speed and torque need, V. */
	readonly need: number;
	/** Duty that gives it; above 1 where the bus cannot. */
	readonly duty: number;
	/** Gains of phase divider, bus divider and star (terminals' mean to node). */
	readonly dividerGain: number;
	readonly halfBusGain: number;
	readonly virtualNeutralGain: number;
	/** Time constants, s. */
	readonly dividerTime: number;
	readonly halfBusTime: number;
	readonly virtualNeutralTime: number;
	/** How long the outgoing phase freewheels after a commutation at duty 1, s. */
	readonly freewheel: number;
}

/** @param values every parameter's value by id, those of the point included */
export function nominalFigures(values: Values): NominalFigures {
	const n = (id: string): number => Number(values[id]);
	const mechanical = (n('operation.speed') * 2 * Math.PI) / 60;
	const degreesPerSecond = n('operation.speed') * 6 * n('motor.polePairs');
	const motorRise = n('operation.motorTemperature') - 25;
	const resistance = n('motor.phaseResistance') * (1 + n('motor.copperCoefficient') * motorRise);
	const emfConstant = n('motor.emfConstant') * (1 + n('motor.magnetCoefficient') * motorRise);
	const voltage = n('supply.voltage');
	const emf = emfConstant * mechanical;
	const current = n('operation.torque') / (2 * emfConstant);
	const need = 2 * emf + 2 * (resistance + n('inverter.switchResistance')) * current;
	const drop = n('inverter.diodeDrop');
	const top = n('sensing.divider.top');
	const bottom = n('sensing.divider.bottom');
	const busTop = n('sensing.halfBus.top');
	const busBottom = n('sensing.halfBus.bottom');
	const starConductance = 3 / n('sensing.virtualNeutral.star');
	const nodeConductance = starConductance + 1 / n('sensing.virtualNeutral.ground');
	const duties: Readonly<Record<string, number>> = {
		complementary: need / voltage,
		both: (need / voltage + 1) / 2,
	};
	return {
		degreesPerSecond,
		sector: 60 / degreesPerSecond,
		period: 1 / n('inverter.pwmFrequency'),
		voltage,
		emf,
		emfSlope: values['motor.shape'] === 'sinusoidal' ? (emf * Math.PI) / 180 : (2 * emf) / (180 - n('motor.flatTop')),
		current,
		need,
		duty: duties[String(values['inverter.chopping'])] ?? (need + drop) / (voltage + drop),
		dividerGain: bottom / (top + bottom),
		halfBusGain: busBottom / (busTop + busBottom),
		virtualNeutralGain: starConductance / nodeConductance,
		dividerTime: (n('sensing.divider.capacitor') * (top * bottom)) / (top + bottom),
		halfBusTime: (n('sensing.halfBus.capacitor') * (busTop * busBottom)) / (busTop + busBottom),
		virtualNeutralTime: n('sensing.virtualNeutral.capacitor') / nodeConductance,
		// R neglected, constant EMF (Carlson et al. 1992): t = 3LI/(V + 2E).
		freewheel: (3 * n('motor.phaseInductance') * current) / (voltage + 2 * emf),
	};
}
