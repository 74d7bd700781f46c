import { causeNames, choiceNames, type PerChoice } from '../drive/drive.ts';
import { capital } from '../words/capital.ts';
import { count, degrees, perHour, power, signedDegrees, span } from '../words/figures.ts';
import { levelWords } from '../words/level.ts';
import { type EventKind, eventKinds, eventWords } from '../words/names.ts';
import { evenQuantity } from '../words/quantity.ts';
import { affectedBound } from '../words/rate.ts';
import { computedRateRow, computedRows, type PointRow } from './computed-rows.ts';
import type { ChoiceFigures, PointResult, RateFigure } from './result.ts';
import { type UnitFigureName, unitFigureNames, unitFigures } from './unit-figures.ts';
import { type Shortcoming, shortcomings } from './unit-passes.ts';

/** All figures of an operating point, choice beside choice, in the order in which they are read. */
export function pointRows(
	{ choices, paired }: Pick<PointResult, 'choices' | 'paired'>,
	level: number,
): readonly PointRow[] {
	const figures = (label: string, words: (choice: ChoiceFigures) => string, at: PointRow['level'] = 1): PointRow => ({
		label,
		level: at,
		words: { halfBus: words(choices.halfBus), virtualNeutral: words(choices.virtualNeutral) },
	});
	const quantiles = ({ angleError }: ChoiceFigures, low: string, high: string): string =>
		span(
			signedDegrees(angleError.quantiles[low] ?? Number.NaN),
			signedDegrees(angleError.quantiles[high] ?? Number.NaN),
		);
	const confidence = levelWords(level);
	const interval = `${confidence} interval`;
	return [
		heading('Commutation-angle error, all commutations (late is +)'),
		figures('mean', ({ angleError }) => signedDegrees(angleError.mean)),
		figures('standard deviation', ({ angleError }) => degrees(angleError.sd)),
		figures('middle 95 %', (choice) => quantiles(choice, '0.025', '0.975')),
		figures('middle 99 %', (choice) => quantiles(choice, '0.005', '0.995')),
		figures('largest, either way', ({ angleError }) => degrees(angleError.maxAbs)),
		heading(`Drive by drive: 95 % of a drive's |errors| lie within`),
		figures('median drive', ({ unitError }) => errorWords(unitError.median)),
		figures(interval, ({ unitError }) => intervalWords(unitError.medianInterval), 2),
		figures('1 drive in 20 is worse than', ({ unitError }) => errorWords(unitError.q95)),
		figures(interval, ({ unitError }) => intervalWords(unitError.q95Interval), 2),
		heading('The middle 95 % of drives lie in'),
		...unitFigureNames.map((name) => figures(unitFigures[name].words, (choice) => spreadWords(choice, name))),
		...eventKinds.flatMap((kind) => [
			figures(capital(eventWords[kind]), ({ rates }) => count(rates[kind].count), 0),
			...rateRows(choices, kind, confidence),
			...computedRateRow(choices, kind),
			...(kind === 'early' && choiceNames.some((choice) => choices[choice].rates.early.count > 0)
				? causeNames.map((cause) => figures(`cause: ${cause}`, ({ causes }) => count(causes[cause])))
				: []),
		]),
		...computedRows(choices, confidence),
		figures('Drives that pass here', ({ passing, units }) => `${count(passing.passed)} of ${count(units)}`, 0),
		{
			label: 'with this choice alone',
			level: 1,
			words: { halfBus: count(paired.passing.only.halfBus), virtualNeutral: count(paired.passing.only.virtualNeutral) },
		},
		...shortcomings
			.filter((name) => choiceNames.some((choice) => choices[choice].passing.shortcomings[name] > 0))
			.map((name) => figures(shortcomingWords[name], ({ passing }) => count(passing.shortcomings[name]))),
		figures('Runs that lost lock', ({ lost, runs }) => `${count(lost)} of ${count(runs)}`, 0),
		figures(
			'Runs short of the torque',
			// runs that lost lock had no time to be trimmed and are not marked
			({ torqueNotReached, runs, lost }) =>
				`${count(torqueNotReached)} of ${count(runs - lost)}${lost > 0 ? ' in lock' : ''}`,
			0,
		),
		figures('Mean torque', ({ meanTorque }) => evenQuantity(meanTorque, 'N·m'), 0),
		figures('Measured sectors', ({ sectors }) => count(sectors), 0),
	];
}

export const shortcomingWords: Readonly<Record<Shortcoming, string>> = {
	lock: 'lost lock',
	torque: 'short of the torque',
	angle: 'angle error too large',
	rate: 'too many false crossings',
};

const heading = (label: string): PointRow => ({ label, level: 0, words: null });

/** Rate, interval and hourly figure; where a choice has no event, the bound on drives stands in their place. */
function rateRows(
	choices: PerChoice<Pick<ChoiceFigures, 'rates'>>,
	kind: EventKind,
	confidence: string,
): readonly PointRow[] {
	const rates = { halfBus: choices.halfBus.rates[kind], virtualNeutral: choices.virtualNeutral.rates[kind] };
	const words = (
		label: string,
		seen: (rate: RateFigure) => string,
		none: (rate: RateFigure) => string,
		level: PointRow['level'] = 1,
	): PointRow => {
		const cell = (rate: RateFigure): string => (rate.boundOn === 'units' ? none(rate) : seen(rate));
		return { label, level, words: { halfBus: cell(rates.halfBus), virtualNeutral: cell(rates.virtualNeutral) } };
	};
	const isUnseen = rates.halfBus.boundOn === 'units' && rates.virtualNeutral.boundOn === 'units';
	if (isUnseen) return [words(`${confidence} bound`, affectedBound, affectedBound)];
	return [
		words(
			'per sector',
			({ rate }) => power(rate),
			() => 'none seen',
		),
		words(
			// the bound of a choice without events is one-sided
			`${confidence} interval${choiceNames.some((choice) => rates[choice].boundOn === 'units') ? ' or bound' : ''}`,
			({ low, high }) => span(power(low), power(high)),
			affectedBound,
			2,
		),
		words(
			'per operating hour',
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

const errorWords = (error: number): string => (error === Number.POSITIVE_INFINITY ? 'lock lost' : degrees(error));

const intervalWords = (interval: readonly [number, number] | null): string =>
	interval === null ? 'too few drives' : span(errorWords(interval[0]), errorWords(interval[1]));
