import { type ChoiceName, choiceNames, type PerChoice } from '../drive/drive.ts';
import { capital } from '../words/capital.ts';
import { count, degrees, drives, pWords, signedDegrees } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { list } from '../words/list.ts';
import { choiceWords } from '../words/names.ts';
import { evenQuantity, quantity } from '../words/quantity.ts';
import type { ChoiceFigures, PairedFigures, StudyResult } from './result.ts';

interface Compared {
	readonly point: string;
	readonly level: number;
	readonly choices: PerChoice<
		Pick<ChoiceFigures, 'unitError' | 'lost' | 'runs' | 'meanTorque' | 'torqueNotReached' | 'angleError'>
	>;
	readonly paired: Omit<PairedFigures, 'sentence' | 'figures' | 'passing' | 'rates'>;
	/** Load torque that the point asks for, N·m. */
	readonly torque: number;
	/** Spread that the time between readings alone makes, degrees. */
	readonly gridSpread: number;
}

/** Which choice is better at one point, by how much and with what confidence, and what else must be known with it. */
export function pointSentence(compared: Compared): string {
	if (compared.paired.units === 0) return `At ${compared.point} no drive was finished: nothing is shown.`;
	return [verdict, lostWords, torqueWords, excessWords, gridWords]
		.map((words) => words(compared))
		.filter(Boolean)
		.join(' ');
}

/** The study's answer over all its operating points. */
export function studySentence({ points, provenance }: StudyResult): string {
	const { finished, asked, failed } = provenance.units;
	if (finished === 0) return `None of the ${count(asked)} drives was finished: nothing is shown.`;
	const named = (better: PairedFigures['better']): string =>
		list(points.filter(({ paired }) => paired.better === better).map(({ name }) => name));
	const parts = choiceNames
		.filter((choice) => named(choice))
		.map((choice) => `${choiceWords[choice]} is better at ${named(choice)}`);
	if (named('not shown')) parts.push(`at ${named('not shown')} neither is shown to be better`);
	const answer = `${capital(parts.join('; '))} (${drives(finished)}, ${levelWords(provenance.level)} confidence at each point).`;
	const lack =
		failed > 0 ? ` ${count(failed)} of ${count(asked)} drives could not be simulated and are in no figure.` : '';
	return answer + lack;
}

function verdict({ point, level, choices, paired }: Compared): string {
	const { better, medianDifference, interval, smaller, units, p } = paired;
	if (better === 'not shown') {
		const difference =
			medianDifference !== null && Number.isFinite(medianDifference)
				? `; half-bus minus virtual neutral is ${signedDegrees(medianDifference)} in the median${intervalWords(interval, level, signedDegrees)}`
				: units > 0 && medianDifference === null
					? '; most of them lose lock with both'
					: '';
		return `At ${point} neither choice is shown to be better: half-bus has the smaller error in ${count(smaller.halfBus)} and virtual neutral in ${count(smaller.virtualNeutral)} of ${drives(units)}${difference}.`;
	}
	const name = choiceWords[better];
	const otherName = choiceWords[other(better)];
	const test = `(sign test: ${pWords(p)})`;
	const wins = `the smaller error in ${count(smaller[better])} of ${count(units)} drives ${test}`;
	const own = choices[better].unitError.median;
	const others = choices[other(better)].unitError.median;
	if (!Number.isFinite(others) || medianDifference === null || !Number.isFinite(medianDifference)) {
		const whose = Number.isFinite(own) ? `the typical ${otherName} drive` : 'with either choice the typical drive';
		return `At ${point} ${name} is better: ${whose} loses lock, and ${name} has ${wins}.`;
	}
	// as many drives that are lost with both differ in nothing
	if (medianDifference === 0) {
		return `At ${point} ${name} is better, though not in the middle of the drives, where the two are equal: it has the smaller error in ${count(smaller[better])} of ${count(units)} drives, ${otherName} in ${count(smaller[other(better)])} ${test}.`;
	}
	const slight = Math.abs(medianDifference) < 0.05 * own ? ' The difference is small against the error itself.' : '';
	const gain = `At ${point} ${name} is better by ${degrees(Math.abs(medianDifference))}${intervalWords(inFavour(interval, better), level, degrees)}`;
	// the median of differences is not the difference of medians
	const typical =
		own < others
			? `: 95\u00a0% of the typical drive's commutations lie within ${degrees(own)}, against ${degrees(others)} with ${otherName}; ${name} has ${wins}`
			: ` on the same drives: it has ${wins}. The typical drives of the two do not show it: 95\u00a0% of commutations lie within ${degrees(own)}, and ${degrees(others)} with ${otherName}`;
	return `${gain}${typical}.${slight}`;
}

function intervalWords(
	interval: readonly [number, number] | null,
	level: number,
	words: (value: number) => string,
): string {
	if (interval === null || !interval.every(Number.isFinite)) return '';
	return ` (${levelWords(level)} interval ${words(interval[0])} to ${words(interval[1])})`;
}

/** An interval of half-bus minus virtual neutral as one of how far a choice is better. */
const inFavour = (interval: readonly [number, number] | null, better: ChoiceName): readonly [number, number] | null =>
	interval !== null && better === 'halfBus' ? [-interval[1], -interval[0]] : interval;

function lostWords({ choices }: Compared): string {
	const parts = choiceNames
		.filter((choice) => choices[choice].lost > 0)
		.map((choice) => `${count(choices[choice].lost)} of ${count(choices[choice].runs)} ${choiceWords[choice]} runs`);
	return parts.length > 0 ? `Lock was lost in ${list(parts)}.` : '';
}

function torqueWords({ choices }: Compared): string {
	const parts = choiceNames
		.filter((choice) => choices[choice].torqueNotReached > 0)
		.map((choice) => `${count(choices[choice].torqueNotReached)} ${choiceWords[choice]} runs`);
	return parts.length > 0 ? `The torque was not reached in ${list(parts)}.` : '';
}

/** Share of the torque asked for, from which on a mean above it is told of. */
const toldExcess = 0.05;

/** Runs that end with lost lock have no duty to settle. */
function excessWords({ choices, torque }: Compared): string {
	const heavier = choiceNames.filter(
		(choice) => choices[choice].lost === 0 && torque > 0 && choices[choice].meanTorque > (1 + toldExcess) * torque,
	);
	if (heavier.length === 0) return '';
	const mean = (choice: ChoiceName): string => evenQuantity(choices[choice].meanTorque, 'N·m', 3);
	const [one, another = one] = heavier.map(mean);
	const means =
		heavier.length === 2 && one === another
			? `${one} with both choices`
			: list(heavier.map((choice) => `${mean(choice)} with ${choiceWords[choice]}`));
	return `The mean torque is ${means}, above the ${quantity(torque, 'N·m')} asked for: the duty does not come down to so light a load within a run, and the errors are those of the heavier one.`;
}

function gridWords({ choices, gridSpread }: Compared): string {
	// at least half of the variance
	const ruled = choiceNames.filter(
		(choice) => 2 * gridSpread * gridSpread >= choices[choice].angleError.sd * choices[choice].angleError.sd,
	);
	if (ruled.length === 0) return '';
	const whose = ruled.length === 2 ? 'for both choices' : `for ${choiceWords[ruled[0] as ChoiceName]}`;
	return `The time between readings alone spreads crossings by ${degrees(gridSpread)} (standard deviation), at least half of the variance ${whose}: no tighter part takes that away.`;
}

const other = (choice: ChoiceName): ChoiceName => (choice === 'halfBus' ? 'virtualNeutral' : 'halfBus');
