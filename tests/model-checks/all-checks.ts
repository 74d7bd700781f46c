import { boardChecks } from './board-checks.ts';
import { driveChecks } from './drive-checks.ts';
import { intervalChecks } from './interval-checks.ts';
import type { ModelCheck } from './model-check.ts';
import { samplingChecks } from './sampling-checks.ts';

/** Every figure known from outside the engine, by what it is of. */
export const modelChecks: readonly { readonly area: string; readonly checks: readonly ModelCheck[] }[] = [
	{ area: 'Currents, waveforms and networks', checks: driveChecks },
	{ area: 'Whole drives', checks: boardChecks },
	{ area: 'Sampling and uncertainty', checks: samplingChecks },
	{ area: 'Intervals and tests', checks: intervalChecks },
];
