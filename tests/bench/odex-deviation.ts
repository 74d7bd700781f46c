import { buildDrive } from '../../shared/drive/build-drive.ts';
import { choiceNames } from '../../shared/drive/drive.ts';
import { defaultValues } from '../../shared/scenario/default-values.ts';
import { traceCases } from '../data/trace-cases.ts';
import { benchTolerance } from '../reference/bench-tolerance.ts';
import { odexRun } from '../reference/odex-run.ts';

/** Largest deviation of odex's angle errors from all reference boards at the bench's tolerance, degrees. */
export function odexDeviation(): number {
	let most = 0;
	for (const { parameters, deviations, expected } of traceCases) {
		const compensation = parameters['detection.compensation'] as number;
		const drive = buildDrive({ ...defaultValues(), ...parameters }, deviations, {
			halfBus: compensation,
			virtualNeutral: compensation,
		});
		for (const choice of choiceNames) {
			const { errors } = odexRun(drive, choice, benchTolerance);
			const wanted = expected[choice].errors;
			if (errors.length !== wanted.length) return Infinity;
			for (const [n, error] of wanted.entries()) most = Math.max(most, Math.abs(error - (errors[n] ?? Number.NaN)));
		}
	}
	return most;
}
