import type { Scenario } from '../../shared/scenario/scenario.ts';
import { smallScenario } from '../study/small-scenario.ts';

const still = (value: number | string) => ({ value, lot: 0, mismatch: 0 });

/** One fast point, finely chopped so that sampling hides little, with nothing varying but resistors and placement: 15 coordinates. */
export const fewPartsText = {
	inverter: { pwmFrequency: '60 kHz' },
	supply: { voltage: '24 V', rippleAmplitude: 0 },
	points: [{ name: 'only', speed: '3000 rpm', torque: '20 mN·m' }],
	motor: {
		phaseResistance: still('0.35 Ω'),
		phaseInductance: still('350 µH'),
		emfConstant: still('30 mV·s/rad'),
		flatTop: still('120°'),
		// apart on purpose: with all phases alike to the last digit, events of two diodes fall together
		placement: { value: 0, mismatch: '0.5°' },
	},
	sensing: {
		divider: { capacitor: still('470 pF') },
		halfBus: { capacitor: still('100 nF') },
		virtualNeutral: { capacitor: still('470 pF') },
		comparator: { offset: still(0) },
	},
	requirement: { angleLimit: '1.6°', quantile: '90 %' },
};

export const fewParts = (changes: Readonly<Record<string, unknown>> = {}): Scenario =>
	smallScenario({ ...fewPartsText, ...changes });
