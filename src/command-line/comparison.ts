import type { PerChoice } from '../../shared/drive/drive.ts';
import { causeNames } from '../../shared/drive/drive.ts';
import { parameter } from '../../shared/parameters/parameters.ts';
import type { ChoiceFigures, PointResult, RateFigure, StudyResult } from '../../shared/study/result.ts';
import { type UnitFigureName, unitFigureNames, unitFigures } from '../../shared/study/unit-figures.ts';
import { count, degrees, percent, perHour, power, signedDegrees, span } from '../../shared/words/figures.ts';
import { levelWords } from '../../shared/words/level.ts';
import { choiceWords, eventKinds, eventWords } from '../../shared/words/names.ts';
import { quantity } from '../../shared/words/quantity.ts';
import { computedLines, computedRateLines } from './computed-lines.ts';
import { decisionLines, passingLines } from './decision-lines.ts';
import { pairLines } from './pair-lines.ts';
import { heading, provenanceLines } from './provenance-lines.ts';
import { row } from './two-columns.ts';
import { wrapText } from './wrap-text.ts';

/** °C: where nominal values hold, and a temperature need not be told. */
const referenceTemperature = 25;

/** A study as a text of 80 columns that can be pasted into a mail: the answer, the figures, what they rest on. */
export function comparison(result: StudyResult): string {
	const { provenance, points } = result;
	const { asked, finished } = provenance.units;
	const lines = [wrapText(`${provenance.scenario}: half-bus against virtual-neutral sensing`)];
	if (provenance.partial) {
		lines.push(wrapText(`PARTIAL RESULT: interrupted after ${count(finished)} of ${count(asked)} drives.`));
	}
	lines.push('', ...decisionLines(result));
	if (finished > 0) {
		for (const point of points) lines.push('', ...pointLines(point, provenance.level), ...pairLines(point.paired));
	}
	lines.push(...provenanceLines(provenance));
	return `${lines.join('\n')}\n`;
}

function pointLines({ name, conditions, choices, paired }: PointResult, level: number): string[] {
	const figures = (label: string, words: (choice: ChoiceFigures) => string): string =>
		row(label, words(choices.halfBus), words(choices.virtualNeutral));
	const quantiles = ({ angleError }: ChoiceFigures, low: string, high: string): string =>
		span(
			signedDegrees(angleError.quantiles[low] ?? Number.NaN),
			signedDegrees(angleError.quantiles[high] ?? Number.NaN),
		);
	const confidence = levelWords(level);
	return [
		heading(name),
		wrapText(conditionWords(conditions)),
		'',
		wrapText(paired.sentence),
		'',
		row('', choiceWords.halfBus, choiceWords.virtualNeutral),
		'Commutation-angle error, all commutations (late is +)',
		figures('  mean', ({ angleError }) => signedDegrees(angleError.mean)),
		figures('  standard deviation', ({ angleError }) => degrees(angleError.sd)),
		figures('  middle 95 %', (choice) => quantiles(choice, '0.025', '0.975')),
		figures('  middle 99 %', (choice) => quantiles(choice, '0.005', '0.995')),
		figures('  largest, either way', ({ angleError }) => degrees(angleError.maxAbs)),
		`Drive by drive: 95 % of a drive's |errors| lie within`,
		figures('  median drive', ({ unitError }) => errorWords(unitError.median)),
		figures(`    ${confidence} interval`, ({ unitError }) => intervalWords(unitError.medianInterval)),
		figures('  1 drive in 20 is worse than', ({ unitError }) => errorWords(unitError.q95)),
		figures(`    ${confidence} interval`, ({ unitError }) => intervalWords(unitError.q95Interval)),
		'The middle 95 % of drives lie in',
		...unitFigureNames.map((name) => figures(`  ${unitFigures[name].words}`, (choice) => spreadWords(choice, name))),
		...eventKinds.flatMap((kind) => [
			figures(capital(eventWords[kind]), ({ rates }) => count(rates[kind].count)),
			...rateLines(
				{ halfBus: choices.halfBus.rates[kind], virtualNeutral: choices.virtualNeutral.rates[kind] },
				confidence,
			),
			...computedRateLines(kind, choices),
			...(kind === 'early' && choices.halfBus.rates.early.count + choices.virtualNeutral.rates.early.count > 0
				? causeNames.map((cause) => figures(`  cause: ${cause}`, ({ causes }) => count(causes[cause])))
				: []),
		]),
		...computedLines(choices, confidence),
		...passingLines(choices, paired.passing),
		figures('Runs that lost lock', ({ lost, runs }) => `${count(lost)} of ${count(runs)}`),
		figures('Runs short of the torque', ({ torqueNotReached, runs }) => `${count(torqueNotReached)} of ${count(runs)}`),
		figures('Mean torque', ({ meanTorque }) => quantity(meanTorque, 'N·m')),
		figures('Measured sectors', ({ sectors }) => count(sectors)),
	];
}

/** Rate, interval and hourly figure; where a choice has no event, the bound on drives stands in their place. */
function rateLines(rates: PerChoice<RateFigure>, confidence: string): string[] {
	const words = (label: string, seen: (rate: RateFigure) => string, none: (rate: RateFigure) => string): string => {
		const cell = (rate: RateFigure): string => (rate.boundOn === 'units' ? none(rate) : seen(rate));
		return row(label, cell(rates.halfBus), cell(rates.virtualNeutral));
	};
	const isUnseen = rates.halfBus.boundOn === 'units' && rates.virtualNeutral.boundOn === 'units';
	const bound = ({ high }: RateFigure): string => `≤ ${percent(high)} of drives`;
	if (isUnseen) return [words(`  ${confidence} bound`, bound, bound)];
	return [
		words(
			'  per sector',
			({ rate }) => power(rate),
			() => 'none seen',
		),
		words(`    ${confidence} interval`, ({ low, high }) => span(power(low), power(high)), bound),
		words(
			'  per operating hour',
			({ perHour: hourly }) => perHour(hourly),
			() => '–',
		),
	];
}

function spreadWords({ unitFigures: spreads }: ChoiceFigures, name: UnitFigureName): string {
	const { symmetric } = spreads[name];
	if (symmetric === null) return 'too few drives';
	const words = unitFigures[name].signed ? signedDegrees : degrees;
	const [low, high] = symmetric.map((limit) => (Number.isFinite(limit) ? words(limit) : 'lock lost'));
	return span(low ?? '', high ?? '');
}

function conditionWords(conditions: PointResult['conditions']): string {
	return Object.entries(conditions)
		.flatMap(([id, value]) => {
			const { name, kind, ...record } = parameter(id);
			if (kind === 'choice' || id === 'operation.share' || !('unit' in record)) return [];
			if (record.unit === '°C' && value === referenceTemperature) return [];
			return [`${name} ${quantity(value, record.unit, 6)}`];
		})
		.join(', ');
}

const errorWords = (error: number): string => (error === Number.POSITIVE_INFINITY ? 'lock lost' : degrees(error));

const intervalWords = (interval: readonly [number, number] | null): string =>
	interval === null ? 'too few drives' : span(errorWords(interval[0]), errorWords(interval[1]));

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
