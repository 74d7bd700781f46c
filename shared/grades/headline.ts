import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import { groupWords, resistorCount } from './resistor-groups.ts';
import type { Enough, GradesResult } from './result.ts';

/** What grade is enough for each choice, in one sentence; what it rests on is in each choice's own. */
export function gradesHeadline({ group, enough, enoughOfArrays, provenance }: GradesResult): string {
	const { share, confidence } = provenance.requirement;
	if (provenance.partial) return `What grade of the ${groupWords[group]} is enough is not known yet.`;
	const concerned = choiceNames.filter((choice) => resistorCount(group, choice) > 0);
	const boards = new Map<string, ChoiceName[]>();
	for (const choice of concerned) {
		const found = foundWords(enough[choice], enoughOfArrays?.[choice] ?? null);
		boards.set(found, [...(boards.get(found) ?? []), choice]);
	}
	const parts = [...boards].map(
		([found, choices]) => `${found} with ${choices.map((choice) => choiceWords[choice]).join(' and ')}`,
	);
	const what = `(enough: at least ${levelWords(share)} of drives pass, with ${levelWords(confidence)} confidence)`;
	return `Of the ${groupWords[group]}, ${parts.join('; ')} ${what}.`;
}

function foundWords(loose: Enough, arrays: Enough | null): string {
	const kinds = arrays ? [loose, arrays] : [loose];
	const confirmed = kinds.flatMap(({ confirmed }) => confirmed ?? []);
	if (confirmed.length > 0) return `${confirmed.join(' or ')} is enough`;
	const held = kinds.flatMap(({ loosest }) => loosest ?? []);
	if (held.length > 0) return `${held.join(' or ')} held but was not confirmed on fresh drives`;
	return 'no grade asked about is shown to be enough';
}
