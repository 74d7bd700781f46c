import { BackEmf } from '../../shared/drive/back-emf.ts';
import { Circuit } from '../../shared/drive/circuit.ts';
import type { Drive } from '../../shared/drive/drive.ts';
import { driveWith } from './drives.ts';

/** A drive whose EMFs stand all but still: 1 rev/min, one pole pair, K chosen for `emf` volts. */
export const still = (emf: number, parameters: Record<string, number | string> = {}): Drive => {
	const perRevPerMinute = (2 * Math.PI) / 60;
	return driveWith({
		'motor.polePairs': 1,
		'operation.speed': 1,
		'motor.emfConstant': emf / perRevPerMinute,
		'supply.rippleAmplitude': 0,
		'inverter.switchResistance': 0,
		...parameters,
	});
};

export const loaded = (drive: Drive): Circuit => {
	const circuit = new Circuit();
	circuit.load(drive);
	return circuit;
};

/** Unit back-EMFs of a balanced drive at an electrical angle, by the kernel's own pieces. */
export function unitEmf(drive: Drive, degrees: number): number[] {
	const circuit = loaded(drive);
	if (drive.motor.sinusoidal) {
		const t = (degrees * Math.PI) / 180;
		return [0, 1, 2].map((k) => {
			const peak = circuit.emfPeak[k] as number;
			return ((circuit.emfRe[k] as number) * Math.sin(t) + (circuit.emfIm[k] as number) * Math.cos(t)) / peak;
		});
	}
	const emf = new BackEmf();
	emf.start(circuit, drive);
	const time = (((degrees + 330) % 360) * Math.PI) / 180 / circuit.omega;
	while (emf.nextCorner <= time) emf.pass(emf.nextCorner);
	return [0, 1, 2].map((k) => {
		const e = (emf.level[k] as number) + (emf.slope[k] as number) * (time - (emf.zero[k] as number));
		return e / (circuit.emfPeak[k] as number);
	});
}
