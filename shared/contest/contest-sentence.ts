import type { ChoiceName } from '../drive/drive.ts';
import { choiceNames } from '../drive/drive.ts';
import { valueWords } from '../range/setting.ts';
import { capital } from '../words/capital.ts';
import { count } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import type { CellFigures, ContestCell, ContestResult } from './contest-result.ts';

type Answered = Omit<ContestResult, 'sentence'>;

/** How far a map is: still growing, ended before its time, or at its end. */
export type MapProgress = 'so far' | 'stopped' | 'finished';

/** The map's answer: at how many speeds and torques each choice is better, where, and how surely; of a map without its end, how far it is. */
export function contestSentence(result: Answered, is: MapProgress): string {
	const { provenance, cells, point, unitsAtMost } = result;
	const shown = cells.filter(hasFigures);
	const leftOut = cells.filter((cell) => cell.leftOut !== null).length;
	if (leftOut === cells.length) return 'None of these speeds and torques can be simulated: nothing is shown.';
	if (is === 'finished' && shown.length === 0)
		return `None of the ${count(provenance.units.asked)} drives was finished: nothing is shown.`;
	const left = is === 'finished' ? cells.length - shown.length : leftOut;
	const better =
		is === 'finished'
			? betterWords(shown, `with up to ${count(unitsAtMost)} drives`)
			: progressWords(shown, { pairs: cells.length - leftOut, unitsAtMost, is });
	return [
		`${better} (${levelWords(provenance.level)} confidence for the whole map).`,
		shown.length > 0 ? requirementWords(shown) : '',
		`All other conditions are those of ${point}; better is the choice with the smaller error in more than half of the drives, the same drives everywhere.`,
		left > 0 ? `${count(left)} further ${left === 1 ? 'pair' : 'pairs'} could not be simulated.` : '',
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
	const everywhere = choiceNames.find((choice) => cells.every(({ figures }) => figures.better === choice));
	if (everywhere) return `${capital(choiceWords[everywhere])} is shown to be better at all ${pairs}`;
	const wins = choiceNames.map((choice) => winWords(cells, choice)).join('; ');
	return `Of ${pairs}, ${wins}; ${open === 0 ? 'one of the two is shown to be better everywhere' : `at ${count(open)} neither is shown to be better ${tried}`}`;
}

interface Underway {
	/** That can be simulated. */
	readonly pairs: number;
	readonly unitsAtMost: number;
	readonly is: 'so far' | 'stopped';
}

/** "So far 12 of 48 pairs of speed and torque are decided: half-bus is better at …; 36 are still being worked on, with up to 200 drives each". */
function progressWords(cells: readonly Shown[], { pairs, unitsAtMost, is }: Underway): string {
	const decided = cells.filter(({ figures }) => figures.better !== 'not shown');
	// neither is shown to be better, with all the drives that there are to be
	const open = cells.filter(({ figures: { better, units } }) => {
		return better === 'not shown' && units.finished + units.failed >= unitsAtMost;
	}).length;
	const under = pairs - decided.length - open;
	const of = `${decided.length === 0 ? 'none' : count(decided.length)} of ${count(pairs)} pairs of speed and torque`;
	const isOne = decided.length < 2;
	const lead =
		is === 'so far' ? `So far ${of} ${isOne ? 'is' : 'are'} decided` : `The run was stopped with ${of} decided`;
	const wins = decided.length === 0 ? '' : `: ${choiceNames.map((choice) => winWords(decided, choice)).join('; ')}`;
	const others = [
		open > 0 ? `at ${count(open)} neither is shown to be better with ${count(unitsAtMost)} drives` : '',
		under === 0
			? ''
			: is === 'so far'
				? `${count(under)} ${under === 1 ? 'is' : 'are'} still being worked on, with up to ${count(unitsAtMost)} drives each`
				: `${count(under)} ${under === 1 ? 'was' : 'were'} not worked on to ${under === 1 ? 'its' : 'their'} end`,
	].filter(Boolean);
	return [`${lead}${wins}`, ...others].join('; ');
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
