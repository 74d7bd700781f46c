import { parameter } from '../parameters/parameters.ts';
import type { Requirement } from '../study/unit-passes.ts';
import { chancePerHour, count, degrees, percent, perHour, span } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { quantity, signedQuantity } from '../words/quantity.ts';
import type { SolderedPart } from './soldered-parts.ts';
import type { WeakestChoice, WeakestDrive, WeakestResult, WeightedFigure } from './weakest-result.ts';

/** What it is to fail, in a sentence. */
export const failingWords = ({ requirement }: Pick<WeakestResult, 'requirement'>): string =>
	`A drive fails that loses lock, misses the torque, has fewer than ${levelWords(requirement.quantile)} of its commutations within ${degrees(requirement.angleLimit)}, or more than ${perHour(requirement.crossingsPerHour)} early, late and missed crossings an hour, at any operating point.`;

/** What shares and rates of seldom drives hang on. */
export function assumedWords({ draws, gaussianTo }: Pick<WeakestResult, 'draws' | 'gaussianTo'>): string {
	const weighted =
		draws.drives > 0
			? ` Shares and rates are averages of ${count(draws.drives)} weighted draws around ${count(draws.centres)} failing points; their mean weight is ${draws.meanWeight.toFixed(2)}, and would be 1 with very many.`
			: '';
	return `Parts independent but for their lots, with the distributions that the scenario states: a uniform tolerance ends at its limits, and no part of a normal one lies beyond the tolerance. Noise Gaussian and independent from reading to reading: at the hourly limit a sector's chance lies ${gaussianTo.toFixed(1)} standard deviations out.${weighted}`;
}

/** What a choice's likeliest failing drive is, or why none is shown; '' where its parts say it all. */
export function weakestSentence(choice: WeakestChoice): string {
	const found = {
		found: '',
		nominal: '',
		none: 'Nothing failed as far as was searched, 8.5 standard deviations along every slope.',
		unknown: 'Interrupted before a failing drive was found.',
	}[choice.outcome];
	const drive = choice.drive ? driveSentence(choice.drive, choice) : '';
	return [found, drive].filter(Boolean).join(' ');
}

function driveSentence(drive: WeakestDrive, { outcome, distances }: WeakestChoice): string {
	const reasons = {
		lock: 'it loses lock',
		torque: 'it does not reach the torque',
		angle: `its angle error comes to ${degrees(drive.angle)}`,
		rate: `it comes to ${perHour(drive.perHour)} wrong or missed crossings an hour`,
		'not simulated': 'it could not be simulated',
	};
	const [nearest = 0] = distances;
	const { failed, of } = drive.confirmed;
	const runs = `in ${failed} of ${of} runs with other starts and noise`;
	if (outcome === 'nominal') {
		return `The drive with every part in the middle of its tolerance fails already: ${reasons[drive.reason]} at ${drive.point}. It does so ${runs}.`;
	}
	const others =
		distances.length > 1
			? ` ${distances.length === 2 ? '1 other combination is' : `${distances.length - 1} other combinations are`} at most ${((distances.at(-1) ?? 0) - nearest).toFixed(1)} standard deviations farther out.`
			: '';
	return `The likeliest failing drive found lies ${nearest.toFixed(2)} standard deviations from the middle of all tolerances.${others} With nothing but the parts below off the middle, which takes ${drive.distance.toFixed(2)} standard deviations, ${reasons[drive.reason]} at ${drive.point}; that drive fails ${runs}.`;
}

/** Phases of what a drive has three of. */
const phases = ['a', 'b', 'c'];

/** A part to be selected and soldered: its name, value, deviation, and share of the squared distance. */
export function solderedCells({
	id,
	instance,
	unit,
	value,
	deviation,
	isRelative,
	share,
}: SolderedPart): readonly [name: string, value: string, deviation: string, share: string] {
	const record = id === 'ringPhase' ? undefined : parameter(id);
	const instances = record === undefined || record.kind === 'choice' ? 1 : record.instances;
	const place = instances === 1 ? '' : instances === 3 ? ` ${phases[instance]}` : ` ${instance + 1}`;
	const signed = isRelative ? signedPercent(deviation) : signedQuantity(deviation, unit, 3);
	return [`${record?.name ?? 'ringing phase'}${place}`, quantity(value, unit), signed, percent(share)];
}

const signedPercent = (deviation: number): string =>
	`${deviation > 0 ? '+' : '−'}${Math.abs(100 * deviation).toFixed(2)}\u00a0%`;

/** A figure that few draws carry; one below all that is told has its own word. */
const roughly = (words: string): string => (words.startsWith('<') ? words.replace(/^<\s/, 'below ') : `about ${words}`);

const drawn = (effective: number): string => (effective < 1.5 ? 'one draw' : `${count(effective)} draws`);

/** Whether few enough drives fail, how many do and how often crossings go wrong; an interrupted search has drawn nothing to tell it from. */
export function shareSentences(
	choice: WeakestChoice,
	{ draws, requirement, provenance }: Pick<WeakestResult, 'draws' | 'requirement' | 'provenance'>,
): readonly string[] {
	if (draws.drives === 0) return ['No drive was drawn for the share: how many fail is not known.'];
	return [failingVerdictSentence(choice, requirement), ...seldomSentences(choice, provenance.level)];
}

/** Whether few enough drives fail, and why. */
export function failingVerdictSentence({ verdict }: WeakestChoice, { share, confidence }: Requirement): string {
	const { decision, low, high, limits } = verdict;
	const may = `where ${levelWords(1 - share)} may (${levelWords(confidence)} confidence)`;
	const how = limits === 'bound' ? ', by a bound that is true however few draws carry the share' : '';
	if (decision === 'holds') return `The requirement holds: at most ${percent(high, 'up')} of drives fail ${may}${how}.`;
	if (decision === 'fails')
		return `The requirement fails: at least ${percent(low, 'down')} of drives fail ${may}${how}.`;
	return `The requirement is undecided: between ${percent(low, 'down')} and ${percent(high, 'up')} of drives fail ${may}${how}. Draw more drives.`;
}

/** How many drives fail and how often crossings go wrong, with limits where enough draws carry them. */
export function seldomSentences(
	{ failingShare, crossingsPerHour, unmeasured }: WeakestChoice,
	level: number,
): readonly [failing: string, hourly: string] {
	const figure = (label: string, weighted: WeightedFigure, words: (value: number) => string): string => {
		const { value, interval, effective, largestShare, draws } = weighted;
		if (draws === 0) return `${label}: none among the draws.`;
		const carried = `carried by ${drawn(effective)}, the largest holding ${percent(largestShare)}`;
		return interval
			? `${label}: ${words(value)}, ${levelWords(level)} limits ${span(words(interval.low), words(interval.high))}; ${carried}.`
			: `${label}: ${roughly(words(value))}, but ${carried}: too few for limits. Draw more drives.`;
	};
	const left =
		unmeasured > 0
			? ` ${count(unmeasured)} of the draws lost lock before a sector was measured; they add no crossings.`
			: '';
	return [
		// a weighted mean may come out above it
		figure('Failing drives', failingShare, (share) => percent(Math.min(1, share))),
		`${figure('Crossings an hour, mean of drives', crossingsPerHour, chancePerHour)}${left}`,
	];
}
