import { smallScenario } from '../study/small-scenario.ts';

/** The study that Node and the browser both run; ringing and a converter take every formula's way into it. */
export const browserStudy = {
	scenario: smallScenario({
		noise: { sigma: '10 mV', ringAmplitude: '3 V' },
		motor: { shape: 'sinusoidal' },
	}),
	seed: 'node and browser',
	units: 40,
};
