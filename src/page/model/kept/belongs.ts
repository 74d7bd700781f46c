import { scenarioDigest } from '../../../../shared/scenario/digest.ts';
import type { StudyResult } from '../../../../shared/study/result.ts';
import type { Reading } from '../services.ts';
import { readSeed, readUnits } from '../study-inputs.ts';
import type { KeptWork } from './kept-work.ts';

/** Whether a stored result is of the work that it is stored with: same scenario, seed and number of drives, and this version's. */
export async function belongs(
	work: KeptWork,
	result: StudyResult,
	read: (text: string) => Reading,
	version: string,
): Promise<boolean> {
	const reading = read(work.text);
	const [units, seed] = [readUnits(work.units), readSeed(work.seed)];
	if (!('scenario' in reading) || !('value' in units) || !('value' in seed)) return false;
	const { provenance, points } = result;
	return (
		provenance.version === version &&
		provenance.seed === seed.value &&
		provenance.units.asked === units.value &&
		points.length === reading.scenario.points.length &&
		provenance.scenarioDigest === (await scenarioDigest(reading.scenario))
	);
}
