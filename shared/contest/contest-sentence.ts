import type { ChoiceName } from '../drive/drive.ts';
import { choiceNames } from '../drive/drive.ts';
import { valueWords } from '../range/setting.ts';
import { count } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import type { CellFigures, ContestCell, ContestResult } from './contest-result.ts';

type Answered = Omit<ContestResult, 'sentence'>;

/** The map's answer: at how many speeds and torques each choice is better, where, and how surely. */
export function contestSentence(result: Answered): string {
	const { provenance, cells, point, unitsAtMost } = result;
	const shown = cells.filter(hasFigures);
	if (shown.length === 0) {
		return cells.every(({ leftOut }) => leftOut !== null)
			? 'None of these speeds and torques can be simulated: nothing is shown.'
			: `None of the ${count(provenance.units.asked)} drives was finished: nothing is shown.`;
	}
	const left = cells.length - shown.length;
	return [
		`${betterWords(shown, `with up to ${count(unitsAtMost)} drives`)} (${levelWords(provenance.level)} confidence for the whole map).`,
		requirementWords(shown),
		`All other conditions are those of ${point}; better is the choice with the smaller error in more than half of the drives, the same drives everywhere.`,
		left > 0 ? `${count(left)} further pairs could not be simulated.` : '',
	]
		.filter(Boolean)
		.join(' ');
}

type Shown = ContestCell & { readonly figures: CellFigures };
const hasFigures = (cell: ContestCell): cell is Shown => cell.figures !== null;

/** "Of 48 pairs of speed and torque, half-bus is better at 31 (…); virtual neutral …; at 4 neither …". */
function betterWords(cells: readonly Shown[], tried: string): string {
	const pairs = `${count(cells.length)} pairs of speed and torque`;
	const open = cells.filter(({ figures }) => figures.better === 'not shown').length;
	if (open === cells.length) return `At none of ${pairs} is either choice shown to be better ${tried}`;
	const wins = choiceNames.map((choice) => winWords(cells, choice)).join('; ');
	return `Of ${pairs}, ${wins}; ${open === 0 ? 'one of the two is shown to be better everywhere' : `at ${count(open)} neither is shown to be better ${tried}`}`;
}

/** "half-bus is better at 31 (850 rpm to 3300 rpm)". */
function winWords(cells: readonly Shown[], choice: ChoiceName): string {
	const won = cells.filter(({ figures }) => figures.better === choice);
	if (won.length === 0) return `${choiceWords[choice]} is shown to be better at none`;
	const speeds = won.map(({ at }) => at['operation.speed'] as number);
	const [slowest, fastest] = [Math.min(...speeds), Math.max(...speeds)].map((speed) =>
		valueWords('operation.speed', speed),
	);
	return `${choiceWords[choice]} is better at ${count(won.length)} (${slowest === fastest ? slowest : `${slowest} to ${fastest}`})`;
}

/** Where it matters less which is better: neither does what is required. */
function requirementWords(cells: readonly Shown[]): string {
	const at = (choice: ChoiceName): number =>
		cells.filter(({ figures }) => figures.choices[choice].decision === 'holds').length;
	const none = cells.filter(({ figures }) =>
		choiceNames.every((choice) => figures.choices[choice].decision === 'fails'),
	).length;
	const holding = choiceNames
		.map((choice) => `${at(choice) === 0 ? 'none' : count(at(choice))} with ${choiceWords[choice]}`)
		.join(' and ');
	return `The requirement is shown to hold at ${holding}${none > 0 ? `, and shown to fail with both at ${count(none)}` : ''}.`;
}
