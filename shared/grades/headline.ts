import { type ChoiceName, choiceNames } from '../drive/drive.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import { groupWords, resistorCount } from './resistor-groups.ts';
import type { Enough, GradesResult } from './result.ts';

/** What grade is enough for each choice, in one sentence; what it rests on is in each choice's own. */
export function gradesHeadline({ group, enough, enoughOfArrays, provenance }: GradesResult): string {
	const { share, confidence } = provenance.requirement;
	const concerned = choiceNames.filter((choice) => resistorCount(group, choice) > 0);
	const parts = concerned.map((choice) => choiceWordsOf(choice, enough[choice], enoughOfArrays?.[choice] ?? null));
	const isShown = concerned.some((choice) => [enough, enoughOfArrays].some((kind) => kind?.[choice].confirmed));
	const what = isShown
		? `, with ${levelWords(confidence)} confidence that at least ${levelWords(share)} of drives pass`
		: ` for ${levelWords(share)} of drives to pass with ${levelWords(confidence)} confidence`;
	return `Of the ${groupWords[group]}, ${parts.join('; ')}${what}.`;
}

function choiceWordsOf(choice: ChoiceName, loose: Enough, arrays: Enough | null): string {
	const board = `with ${choiceWords[choice]}`;
	const kinds = arrays ? [loose, arrays] : [loose];
	const confirmed = kinds.flatMap(({ confirmed }) => confirmed ?? []);
	if (confirmed.length > 0) return `${confirmed.join(' or ')} ${confirmed.length > 1 ? 'are' : 'is'} enough ${board}`;
	const held = kinds.flatMap(({ loosest }) => loosest ?? []);
	if (held.length > 0) return `${held.join(' or ')} held ${board} but fresh drives do not confirm it`;
	return `no grade asked about is shown to be enough ${board}`;
}
