import type { ChoiceName } from '../drive/drive.ts';
import type { Verdict } from '../statistics/verdict.ts';
import { type Requirement, shortcomings as reasons, type Shortcoming } from '../study/unit-passes.ts';
import { capital } from '../words/capital.ts';
import { count, enough, percent } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { choiceWords } from '../words/names.ts';
import { tooFewUnits } from '../words/too-few-units.ts';
import { type AskedGroup, groupWords } from './resistor-groups.ts';
import type { CaseFigures, CheapestMix, Enough, MixFigures } from './result.ts';

interface JudgedGrade {
	readonly name: string;
	readonly verdict: Verdict | null;
	/** Passing shares with the grade's nominal values and with its tolerance alone. */
	readonly nominalsShare: number;
	readonly toleranceShare: number;
}

interface Judged {
	readonly choice: ChoiceName;
	readonly group: AskedGroup;
	/** Whether these are arrays beside loose resistors. */
	readonly areArrays: boolean;
	/** Whether a board with this choice has resistors of the group. */
	readonly isConcerned: boolean;
	/** Grade names, tightest first, and what was found of each; null where it was not judged. */
	readonly grades: readonly JudgedGrade[];
	readonly enough: Omit<Enough, 'sentence'>;
	/** What the drives that do not pass with the tightest grade fall short in. */
	readonly shortcomings: Readonly<Record<Shortcoming, number>>;
	/** Passing share with exact resistors in the group. */
	readonly exactShare: number;
	/** Of the run with the tightest grade. */
	readonly units: CaseFigures['units'];
	readonly requirement: Requirement;
	/** Confidence of each grade's own test, which keeps that of the requirement for all of them. */
	readonly confidenceOfEach: number;
	readonly isPartial: boolean;
}

/** Which grade is enough for one choice, and what that rests on. */
export function enoughSentence(judged: Judged): string {
	const { choice, group, areArrays, isConcerned, grades, enough, isPartial } = judged;
	const name = `${capital(choiceWords[choice])}${areArrays ? ', arrays' : ''}`;
	if (!isConcerned)
		return `${name}: no resistor of the ${groupWords[group]} is on its board; its figures are those of any grade.`;
	if (isPartial && enough.loosest === null) return `${name}: interrupted before the grades could be judged.`;
	const loosest = grades.findIndex((grade) => grade.name === enough.loosest);
	if (loosest < 0) return `${name}: ${noneWords(judged)}`;
	const parts = [
		`${enough.loosest} is the loosest grade that holds: ${confidenceWords(judged.requirement)}.`,
		freshWords(judged),
		nextWords(grades[loosest + 1]),
	];
	return `${name}: ${parts.filter(Boolean).join(' ')}`;
}

/** The cheapest mix for one choice, and what that rests on. */
export function mixSentence(
	choice: ChoiceName,
	{ searched, fresh, confirmed }: Omit<CheapestMix, 'sentence'>,
	requirement: Requirement,
	isPartial: boolean,
): string {
	const name = capital(choiceWords[choice]);
	const last = fresh.at(-1);
	const failed = fresh
		.filter(({ verdict }) => verdict.decision !== 'holds')
		.map(
			({ subject, verdict }) =>
				`${mixWords(subject)} held in the search but not on fresh drives (${passWords(verdict)})`,
		);
	const doubts = failed.length > 0 ? ` Cheaper, ${failed.join('; ')}.` : '';
	if (confirmed !== null && last !== undefined) {
		return (
			`${name}: the cheapest mix that holds is ${mixWords(confirmed)}: ${confidenceWords(requirement)}, shown on fresh drives ` +
			`(${passWords(last.verdict)}).${doubts}`
		);
	}
	if (isPartial) return `${name}: interrupted before a mix could be shown.`;
	const held = searched.filter(({ verdict }) => verdict.decision === 'holds').length;
	if (held === 0) {
		return `${name}: ${searched.length === 1 ? 'the only mix is not shown to hold' : `none of the ${count(searched.length)} mixes is shown to hold`}.`;
	}
	return `${name}: no mix is shown: ${failed.join('; ')}. More drives may show one.`;
}

/** "phase dividers 1 %, bus divider 5 %, at 4.5". */
export function mixWords({ grades, price }: Pick<MixFigures, 'grades' | 'price'>): string {
	const parts = Object.entries(grades).map(([group, grade]) => `${groupWords[group as AskedGroup]} ${grade}`);
	return `${parts.join(', ')} at ${price}`;
}

/** Why no grade is enough, or why that is not known. */
function noneWords({ grades, shortcomings, exactShare, units, requirement, confidenceOfEach, group }: Judged): string {
	const [tightest] = grades;
	const verdict = tightest?.verdict;
	if (!tightest || !verdict || units.finished === 0) return 'no drive was finished: nothing is shown.';
	const lack = units.failed > 0 ? ` (${count(units.failed)} could not be simulated)` : '';
	const passing =
		units.asked === 1
			? `the one drive ${verdict.share > 0 ? 'passes' : 'does not pass'}${lack}`
			: `${percent(verdict.share)} of ${count(units.asked)} drives pass${lack}`;
	const seen = `with the tightest, ${tightest.name}, ${passing}`;
	const required = levelWords(requirement.share);
	const counted = reasons.filter((reason) => shortcomings[reason] > 0);
	const why = counted
		.map((reason) => `${count(shortcomings[reason])} ${reasonWords[reason][shortcomings[reason] === 1 ? 0 : 1]}`)
		.join(', ');
	const exact = `${why && ` Of the others ${why}.`} With exact resistors in their place ${percent(exactShare)} pass.`;
	if (verdict.decision === 'fails') {
		// looser ones have other nominal values too, and no test after the first that did not hold
		const looser = grades.length > 1 ? ' Looser grades are not judged after that.' : '';
		return `no grade of the ${groupWords[group]} is shown to be enough: the tightest, ${tightest.name}, fails, ${passing}, fewer than the ${required} required.${exact}${looser}`;
	}
	const few = tooFewUnits(units.asked, { ...requirement, confidence: confidenceOfEach }, 'that it holds');
	const more = few
		? ` ${few}`
		: verdict.moreUnits === null
			? ' The share lies too near to what is required for any number of drives to decide it.'
			: ` A run of about ${enough(units.asked + verdict.moreUnits)} drives with another seed would decide it.`;
	return `not known: ${seen}, which neither shows nor rules out the ${required} required.${more}${exact}`;
}

/** Of one drive, and of several. */
const reasonWords: Readonly<Record<Shortcoming, readonly [one: string, several: string]>> = {
	lock: ['loses lock', 'lose lock'],
	torque: ['misses the torque', 'miss the torque'],
	angle: ['exceeds the angle', 'exceed the angle'],
	rate: ['takes too many crossings wrong', 'take too many crossings wrong'],
};

function freshWords({ enough: { fresh, confirmed }, isPartial }: Judged): string {
	const tests = fresh.map(({ subject, verdict }, place) => {
		const name = place === 0 ? 'it' : `the next tighter, ${subject}`;
		return verdict.decision === 'holds'
			? `fresh drives confirm ${name} (${passWords(verdict)})`
			: `fresh drives do not confirm ${name} (${passWords(verdict)}: it ${decisionWords(verdict)})`;
	});
	if (tests.length === 0) return isPartial ? 'It was interrupted before fresh drives could confirm it.' : '';
	const end =
		confirmed !== null ? '' : isPartial ? ' Then it was interrupted.' : ' No tighter one is left: take more drives.';
	return `${capital(tests.join(', but '))}.${end}`;
}

function nextWords(next: JudgedGrade | undefined): string {
	if (next === undefined) return 'No looser grade was asked about.';
	if (next.verdict === null) return '';
	const apart = `its nominal values alone ${percent(next.nominalsShare)}, its tolerance alone ${percent(next.toleranceShare)}`;
	return `The next looser, ${next.name}, ${decisionWords(next.verdict)} (${percent(next.verdict.share)} pass; ${apart}).`;
}

const decisionWords = ({ decision }: Verdict): string => (decision === 'undecided' ? 'is undecided' : decision);

const passWords = ({ share, low }: Verdict): string => `${percent(share)} pass, at least ${percent(low, 'down')}`;

const confidenceWords = ({ share, confidence }: Requirement): string =>
	`with ${levelWords(confidence)} confidence at least ${levelWords(share)} of drives pass`;
