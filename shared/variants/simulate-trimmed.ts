import type { Drive, PairRecord, PerChoice, RunRecord } from '../drive/drive.ts';
import type { NoiseSource } from '../drive/noise.ts';
import { simulatePair } from '../drive/simulate-pair.ts';

/**
 * Simulates drives whose firmware commutates `trim` degrees ahead of what the
 * scenario states, for each choice its own (so that each needs a run of its
 * own). The kernel measures angle errors against the advance it is given; here
 * they are put back against the stated one.
 */
export function simulateTrimmed(trim: PerChoice<number>): (drive: Drive, noise: NoiseSource) => PairRecord {
	return (drive, noise) => {
		const advancedBy = (angle: number): PairRecord => {
			const { detection } = drive;
			const advanced = { ...drive, detection: { ...detection, advance: detection.advance + angle } };
			return simulatePair(advanced, noise, { chances: true });
		};
		const against = (run: RunRecord, angle: number): RunRecord => ({
			...run,
			errors: run.errors.map((error) => error - angle),
		});
		const halfBus = advancedBy(trim.halfBus);
		const virtualNeutral = trim.virtualNeutral === trim.halfBus ? halfBus : advancedBy(trim.virtualNeutral);
		return {
			halfBus: against(halfBus.halfBus, trim.halfBus),
			virtualNeutral: against(virtualNeutral.virtualNeutral, trim.virtualNeutral),
		};
	};
}
