import { formatQuantity } from '../../../shared/parameters/format-quantity.ts';
import type { StudyResult } from '../../../shared/study/result.ts';
import { count } from '../../../shared/words/figures.ts';
import { levelWords } from '../../../shared/words/level.ts';

/** Everything needed to get the same figures again, and what went wrong on the way. */
export function provenanceRows({ provenance }: StudyResult) {
	const { units, failures, warnings, compensation, methods, level } = provenance;
	const time = (seconds: number): string => formatQuantity(Number(seconds.toPrecision(4)), 's');
	return {
		rows: [
			['Scenario', provenance.scenario],
			['Seed', provenance.seed],
			['Drives', `${count(units.asked)} asked, ${count(units.finished)} finished, ${count(units.failed)} failed`],
			[
				'Delay compensation',
				`half-bus ${time(compensation.halfBus)}, virtual neutral ${time(compensation.virtualNeutral)}`,
			],
			['Scenario digest', provenance.scenarioDigest],
			['Result digest', provenance.resultDigest || 'once the run is finished'],
			['Version', provenance.version],
			['Confidence level', levelWords(level)],
			...Object.entries(methods).map(([figure, method]) => [capital(figure), method] as const),
		] as readonly (readonly [string, string])[],
		failures,
		warnings,
	};
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
