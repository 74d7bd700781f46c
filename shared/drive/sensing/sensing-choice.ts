import type { ChoiceName } from '../drive.ts';
import { HalfBus } from './half-bus.ts';
import type { Threshold } from './threshold.ts';
import { VirtualNeutral } from './virtual-neutral.ts';

/** The sensing choices that are compared; a further one is a line here. */
export const thresholds: Readonly<Record<ChoiceName, () => Threshold>> = {
	halfBus: () => new HalfBus(),
	virtualNeutral: () => new VirtualNeutral(),
};
