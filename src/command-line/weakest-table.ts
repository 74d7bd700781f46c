import { choiceNames } from '../../shared/drive/drive.ts';
import { parameter } from '../../shared/parameters/parameters.ts';
import type { SolderedPart } from '../../shared/rare/soldered-parts.ts';
import type { WeakestChoice, WeakestDrive, WeakestResult, WeightedFigure } from '../../shared/rare/weakest-result.ts';
import { count, degrees, percent, perHour, span } from '../../shared/words/figures.ts';
import { levelWords } from '../../shared/words/level.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { quantity, signedQuantity } from '../../shared/words/quantity.ts';
import { heading, provenanceLines } from './provenance-lines.ts';
import { padEnd, padStart, wrapText } from './wrap-text.ts';

/** The likeliest failing drive of each choice and how often drives fail, 80 columns. */
export function weakestTable(result: WeakestResult): string {
	const { provenance, requirement, choices, draws, gaussianTo } = result;
	const lines = [
		wrapText(`${provenance.scenario}: the likeliest failing drives`),
		'',
		wrapText(
			`A drive fails that loses lock, misses the torque, has fewer than ${levelWords(requirement.quantile)} of its commutations within ${degrees(requirement.angleLimit)}, or more than ${perHour(requirement.crossingsPerHour)} early, late and missed crossings an hour, at any operating point.`,
		),
	];
	if (provenance.partial) lines.push(wrapText('PARTIAL RESULT: interrupted; what had finished is shown.'));
	for (const choice of choiceNames) {
		lines.push('', heading(choiceWords[choice]), ...choiceLines(choices[choice], result));
	}
	lines.push(
		'',
		heading('What these figures assume'),
		wrapText(
			`Parts independent but for their lots, with the distributions that the scenario states: a uniform tolerance ends at its limits, and no part of a normal one lies beyond the tolerance. Noise Gaussian and independent from reading to reading: at the hourly limit a sector's chance lies ${gaussianTo.toFixed(1)} standard deviations out. Shares and rates are averages of ${count(draws.drives)} weighted draws around ${count(draws.centres)} failing points; their mean weight is ${draws.meanWeight.toFixed(2)}, and would be 1 with very many.`,
		),
		...provenanceLines(provenance),
	);
	return `${lines.join('\n')}\n`;
}

function choiceLines(choice: WeakestChoice, { provenance }: WeakestResult): string[] {
	const confidence = levelWords(provenance.level);
	const shares = [
		figureLine('Failing drives', choice.failingShare, percent, confidence),
		figureLine('Crossings an hour, mean of drives', choice.crossingsPerHour, perHour, confidence),
	];
	const intro = {
		found: [],
		nominal: ['The drive with every part in the middle of its tolerance fails already.'],
		none: ['Nothing failed as far as was searched, 8.5 standard deviations along every slope.'],
		unknown: ['Interrupted before a failing drive was found.'],
	}[choice.outcome].map((text) => wrapText(text));
	return [...intro, ...(choice.drive ? driveLines(choice.drive, choice) : []), ...shares];
}

function driveLines(drive: WeakestDrive, { distances }: WeakestChoice): string[] {
	const reasons = {
		lock: 'it loses lock',
		torque: 'it does not reach the torque',
		angle: `its angle error comes to ${degrees(drive.angle)}`,
		rate: `it comes to ${perHour(drive.perHour)} wrong or missed crossings an hour`,
		'not simulated': 'it could not be simulated',
	};
	const [nearest = 0] = distances;
	const { failed, of } = drive.confirmed;
	const others =
		distances.length > 1
			? ` ${distances.length - 1} other combinations are within ${((distances.at(-1) ?? 0) - nearest).toFixed(1)} standard deviations of it.`
			: '';
	return [
		wrapText(
			`The likeliest failing drive lies ${nearest.toFixed(2)} standard deviations from the middle of all tolerances.${others} With the parts below alone, ${drive.distance.toFixed(2)} out, ${reasons[drive.reason]} at ${drive.point}: it fails in ${failed} of ${of} runs with other starts and noise.`,
		),
		'',
		padEnd('  Part, at 25 °C', 38) + padStart('value', 14) + padStart('deviation', 14) + padStart('weight', 10),
		...drive.parts.map(partLine),
		wrapText('  All other parts in the middle of their tolerances.', { rest: '  ' }),
		'',
	];
}

/** Phases of what a drive has three of. */
const phases = ['a', 'b', 'c'];

function partLine({ id, instance, unit, value, deviation, isRelative, share }: SolderedPart): string {
	const record = id === 'ringPhase' ? undefined : parameter(id);
	const instances = record === undefined || record.kind === 'choice' ? 1 : record.instances;
	const place = instances === 1 ? '' : instances === 3 ? ` ${phases[instance]}` : ` ${instance + 1}`;
	const signed = isRelative ? signedPercent(deviation) : signedQuantity(deviation, unit, 3);
	return (
		padEnd(`  ${record?.name ?? 'ringing phase'}${place}`, 38) +
		padStart(quantity(value, unit), 14) +
		padStart(signed, 14) +
		padStart(percent(share), 10)
	);
}

const signedPercent = (deviation: number): string =>
	`${deviation > 0 ? '+' : '−'}${Math.abs(100 * deviation).toFixed(2)} %`;

const drawn = (effective: number): string => (effective < 1.5 ? 'one draw' : `${count(effective)} draws`);

function figureLine(
	label: string,
	{ value, interval, effective, largestShare, draws }: WeightedFigure,
	words: (value: number) => string,
	confidence: string,
): string {
	if (draws === 0) return wrapText(`${label}: none among the draws.`, { rest: '  ' });
	const carried = `carried by ${drawn(effective)}, the largest holding ${percent(largestShare)}`;
	return wrapText(
		interval
			? `${label}: ${words(value)}, ${confidence} limits ${span(words(interval.low), words(interval.high))}; ${carried}.`
			: `${label}: about ${words(value)}, but ${carried}: too few for limits. Draw more drives.`,
		{ rest: '  ' },
	);
}
