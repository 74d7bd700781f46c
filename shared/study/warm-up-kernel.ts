import { buildDrive } from '../drive/build-drive.ts';
import { silence } from '../drive/noise.ts';
import { simulatePair } from '../drive/simulate-pair.ts';
import { defaultValues } from '../scenario/default-values.ts';

/** Two short runs of the default drive, so that the engine has compiled the hot loop before work comes. */
export function warmUpKernel(): void {
	const values = { ...defaultValues(), 'trial.warmup': 6, 'trial.settle': 0, 'trial.measured': 6 };
	for (const pwmPhase of [0, 0.5])
		simulatePair(buildDrive(values, { pwmPhase }, { halfBus: 0, virtualNeutral: 0 }), silence);
}
