import { cautionsOf } from '../../../shared/study/doubts.ts';
import type { StudyResult } from '../../../shared/study/result.ts';
import { capital } from '../../../shared/words/capital.ts';
import { count } from '../../../shared/words/figures.ts';
import { keepUnits } from '../../../shared/words/keep-units.ts';
import { levelWords } from '../../../shared/words/level.ts';
import { quantity } from '../../../shared/words/quantity.ts';

/** Everything needed to get the same figures again, and what went wrong on the way. */
export function provenanceRows({ provenance }: Pick<StudyResult, 'provenance'>) {
	const { units, failures, compensation, methods, level } = provenance;
	return {
		rows: [
			['Scenario', provenance.scenario],
			['Seed', provenance.seed],
			[
				'Drives',
				`${count(units.asked)}\u00a0asked, ${count(units.finished)}\u00a0finished, ${count(units.failed)}\u00a0failed`,
			],
			[
				'Delay compensation',
				`half-bus ${quantity(compensation.halfBus, 's')}, virtual neutral ${quantity(compensation.virtualNeutral, 's')}`,
			],
			['Scenario digest', provenance.scenarioDigest],
			['Result digest', provenance.resultDigest || 'once the run is finished'],
			['Version', provenance.version],
			['Confidence level', levelWords(level)],
			...Object.entries(methods).map(([figure, method]) => [capital(figure), method] as const),
		] as readonly (readonly [string, string])[],
		failures,
		cautions: cautionsOf(provenance).map(keepUnits),
	};
}
