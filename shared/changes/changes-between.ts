import { choiceNames } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { KeptResult } from '../results/read-result.ts';
import { mostUnitsInFile } from '../results/unit-columns.ts';
import type { Decision } from '../statistics/verdict.ts';
import { pointChange } from '../study/point-change.ts';
import type { StudyResult } from '../study/result.ts';
import { changedInputs } from './changed-inputs.ts';
import type { ChangesResult, Pairing, Side, VerdictChange } from './changes-result.ts';
import { changesSentence } from './changes-sentence.ts';
import { figuresChange } from './figures-change.ts';

/** From worst to best. */
const ranks: readonly Decision[] = ['fails', 'undecided', 'holds'];

/** What changed from one result to another, drive by drive where both files hold them. */
export function changesBetween(before: KeptResult, after: KeptResult): ChangesResult {
	const [first, second] = [before.result, after.result];
	const pairing = pairingOf(before, after);
	const points = second.points.flatMap((point, place) => {
		const at = first.points.findIndex(({ name }) => name === point.name);
		const was = first.points[at];
		if (was === undefined) return [];
		const change =
			before.record && after.record
				? pointChange({ record: before.record, point: at }, { record: after.record, point: place })
				: figuresChange(was, point, second.provenance.level);
		return [{ name: point.name, change }];
	});
	const namesOf = ({ points: all }: StudyResult): string[] => all.map(({ name }) => name);
	const missingFrom = (one: StudyResult, other: StudyResult): string[] =>
		namesOf(one).filter((name) => !namesOf(other).includes(name));
	const verdicts = perChoice((choice) => verdictChange(first.verdict[choice], second.verdict[choice]));
	const result: Omit<ChangesResult, 'sentence'> = {
		format: 'anglespread-changes',
		formatVersion: 1,
		before: sideOf(before),
		after: sideOf(after),
		inputs: before.scenario && after.scenario ? changedInputs(before.scenario, after.scenario) : null,
		sameScenario: first.provenance.scenarioDigest === second.provenance.scenarioDigest,
		requirementChanged: first.requirement.sentence !== second.requirement.sentence,
		pairing,
		verdicts,
		points,
		onlyBefore: missingFrom(first, second),
		onlyAfter: missingFrom(second, first),
		worse: choiceNames.some((choice) => verdicts[choice].step === 'worse'),
	};
	return { ...result, sentence: changesSentence(result) };
}

function pairingOf(before: KeptResult, after: KeptResult): Pairing {
	if (!before.record || !after.record) return 'figures';
	if (before.result.provenance.seed !== after.result.provenance.seed) return 'none';
	return before.result.provenance.version === after.result.provenance.version ? 'drives' : 'seed';
}

function verdictChange(before: StudyResult['verdict']['halfBus'], after: typeof before): VerdictChange {
	const step = Math.sign(ranks.indexOf(after.decision) - ranks.indexOf(before.decision));
	return {
		before: before.decision,
		after: after.decision,
		step: step < 0 ? 'worse' : step > 0 ? 'better' : 'same',
		sentences: { before: before.sentence, after: after.sentence },
	};
}

const sideOf = ({ result: { provenance, points }, record }: KeptResult): Side => {
	const { version, seed, scenario, scenarioDigest, resultDigest, units, partial, compensation, level } = provenance;
	const drives = { holdsDrives: record !== null, mostDrives: mostUnitsInFile(points.length) };
	return { version, seed, scenario, scenarioDigest, resultDigest, units, partial, compensation, level, ...drives };
};
