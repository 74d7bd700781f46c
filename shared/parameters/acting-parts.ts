import type { OperatingPoint, Values } from '../scenario/scenario.ts';

/** Temperature at which nominal values hold, °C. */
export const referenceTemperature = 25;

/**
 * Whether a part's deviation can move anything.
 *
 * @param id of the part's parameter
 * @param values of every parameter, conditions included, by id
 * @param ranges of the conditions, where these are not exact
 */
export function canAct(id: string, values: Values, ranges: OperatingPoint['ranges'] = {}): boolean {
	switch (id) {
		case 'noise.ringCoupling':
			return Number(values['noise.ringAmplitude']) > 0;
		case 'motor.flatTop':
			return values['motor.shape'] !== 'sinusoidal';
		case 'sensing.resistorCoefficient': {
			const temperature = 'operation.boardTemperature';
			return values[temperature] !== referenceTemperature || ranges[temperature] !== undefined;
		}
		default:
			return true;
	}
}
