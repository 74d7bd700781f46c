import type { Drive, Phases } from './drive.ts';

const average = (x: Phases): number => (x[0] + x[1] + x[2]) / 3;
const clamp = (x: number, least: number): number => Math.min(1, Math.max(least, x));

/**
 * Duty that a run begins with: what the load torque needs on average, from
 * I = T_L/(2K̄), E = K̄ω_m, need = 2E + 2(R̄ + R_on)I. 0…1.
 */
export function firstDuty(drive: Drive): number {
	const { motor, inverter, supply, operation } = drive;
	const k = average(motor.emfConstant);
	const speed = (operation.speed * 2 * Math.PI) / 60;
	const current = operation.torque / (2 * k);
	const need = 2 * k * speed + 2 * (average(motor.phaseResistance) + inverter.switchResistance) * current;
	const { voltage } = supply;
	switch (inverter.chopping) {
		case 'complementary':
			return clamp(need / voltage, 0);
		case 'both':
			return clamp((need / voltage + 1) / 2, 0);
		default:
			return clamp((need + inverter.diodeDrop) / (voltage + inverter.diodeDrop), 0);
	}
}

/**
 * Duty after a sector of mean torque T̄ (N·m), from the latest one:
 * d ← clamp(d + 0.3·2(R̄ + R_on)(T_L − T̄)/(2K̄·V·c), 0.01, 1), c = 2 for `both`, else 1.
 */
export function trimDuty(drive: Drive, duty: number, meanTorque: number): number {
	const { motor, inverter, supply, operation } = drive;
	const resistance = 2 * (average(motor.phaseResistance) + inverter.switchResistance);
	const share = inverter.chopping === 'both' ? 2 : 1;
	const short = operation.torque - meanTorque;
	const step = (0.3 * resistance * short) / (2 * average(motor.emfConstant) * supply.voltage * share);
	return clamp(duty + step, 0.01);
}
