import { expect, it } from 'vitest';
import { choiceNames } from '../../shared/drive/drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { driveWith } from './drives.ts';

it('a diode that starts at a commutation which falls on a corner of the back-EMF goes on, and the run with it', () => {
	// Found in a study, one run of 3,600: i_a reaches 0 in the off-window 0.1 µs before the commutation out of sector
	// kind 0 drives terminal a 0.94 V above the bus; the corner of phase b's flat lies 10⁻¹⁹ s behind it, and over
	// so short a segment the current that starts is less than its rounding.
	const drive = driveWith(
		{
			'operation.speed': 2027.7820481153929,
			'operation.torque': 0.044,
			'supply.voltage': 23.594211242286843,
			'supply.rippleAmplitude': 0.6688367695549614,
			'detection.compensation': 77.99683864452308e-6,
		},
		{
			'motor.placement': [0, 0, -0.4689],
			'motor.phaseInductance': [0.0025, -0.0025, 0],
			pwmPhase: 0.3919601586173681,
			ripplePhase: 0.8965179811125326,
		},
	);
	const pair = simulatePair(drive, silence, { observe: () => {} });
	for (const choice of choiceNames) {
		expect(pair[choice].lost).toBe(false);
		expect(pair[choice].measured).toBe(24);
	}
});
