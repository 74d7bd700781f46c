import { expect, test } from 'vitest';
import { buildDrive } from '../../shared/drive/build-drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { defaultValues } from '../../shared/scenario/default-values.ts';

/** Half-bus errors with readings disturbed by noise of so many volts and ringing of so many; each deviate is +1 or −1 in turn. */
function errors(sigma: number, ringAmplitude: number): readonly number[] {
	// rings on until the sample in the on-window
	const slow = { 'noise.ringDecay': 50e-6, 'noise.ringFrequency': 50e3 };
	const values = { ...defaultValues(), ...slow, 'noise.sigma': sigma, 'noise.ringAmplitude': ringAmplitude };
	const drive = buildDrive(values, { pwmPhase: 0.3 }, { halfBus: 75e-6, virtualNeutral: 75e-6 });
	const noise = { ...silence, normal: (_: number, reading: number) => (reading % 2 === 0 ? 1 : -1) };
	return [...simulatePair(drive, noise).halfBus.errors];
}

test('noise without ringing moves commutations, and so does ringing without noise', () => {
	const still = errors(0, 0);
	expect(errors(0.3, 0)).not.toEqual(still);
	expect(errors(0, 20)).not.toEqual(still);
});
