import { expect, test } from 'vitest';
import { canAct } from '../../shared/parameters/acting-parts.ts';

test('resistors drift where the board is off 25 °C or may be', () => {
	const id = 'sensing.resistorCoefficient';
	expect(canAct(id, { 'operation.boardTemperature': 25 })).toBe(false);
	expect(canAct(id, { 'operation.boardTemperature': 26 })).toBe(true);
	const ranges = { 'operation.boardTemperature': { scale: 'absolute', halfWidth: 10 } } as const;
	expect(canAct(id, { 'operation.boardTemperature': 25 }, ranges)).toBe(true);
});

test('a flat top acts in a trapezoidal back-EMF alone, coupling in ringing alone, a resistor always', () => {
	expect(canAct('motor.flatTop', { 'motor.shape': 'trapezoidal' })).toBe(true);
	expect(canAct('motor.flatTop', { 'motor.shape': 'sinusoidal' })).toBe(false);
	expect(canAct('noise.ringCoupling', { 'noise.ringAmplitude': 0 })).toBe(false);
	expect(canAct('noise.ringCoupling', { 'noise.ringAmplitude': 1e-3 })).toBe(true);
	expect(canAct('sensing.divider.top', {})).toBe(true);
});
