import { type ChoiceName, choiceNames, type PerChoice } from '../../../shared/drive/drive.ts';
import type { Change } from '../../../shared/statistics/quantile-change.ts';
import { computedIntervalWords } from '../../../shared/study/computed-rows.ts';
import type { ChoiceChange, PointChange } from '../../../shared/study/point-change.ts';
import type { ChoiceFigures, ComputedRate, PointResult, RateFigure } from '../../../shared/study/result.ts';
import { degreesChange } from '../../../shared/words/change.ts';
import {
	chance,
	chancePerHour,
	count,
	degrees,
	perHour,
	power,
	signedDegrees,
	span,
} from '../../../shared/words/figures.ts';
import { eventKinds, eventWords } from '../../../shared/words/names.ts';
import { evenQuantity } from '../../../shared/words/quantity.ts';
import { affectedBound } from '../../../shared/words/rate.ts';

/** One figure of both choices, in words; `detail` is its interval or what else belongs under it. */
export interface FigureRow {
	readonly label: string;
	readonly figures: PerChoice<{ readonly main: string; readonly detail: string; readonly was: string }>;
}

export interface FigureGroup {
	readonly title: string;
	readonly note: string;
	readonly rows: readonly FigureRow[];
}

/**
 * The table of the comparison at one operating point, as it is read: drive by drive, pooled, crossings, runs.
 *
 * @param ghost the baseline's figures, to be shown under the present ones
 * @param change what changed since, where units can be paired
 */
export function figureGroups(
	{ choices }: Pick<PointResult, 'choices'>,
	ghost: Pick<PointResult, 'choices'> | null = null,
	change: PointChange | null = null,
): readonly FigureGroup[] {
	const row = (
		label: string,
		read: (figures: ChoiceFigures) => [string, string?],
		changed?: (change: ChoiceChange) => Change,
	): FigureRow => {
		const cell = (choice: ChoiceName) => {
			const [main, detail = ''] = read(choices[choice]);
			const [before] = ghost ? read(ghost.choices[choice]) : [''];
			const step = changed && change ? degreesChange(changed(change.choices[choice]))?.step : '';
			return { main, detail, was: before && `was ${before}${step ? `: ${step}` : ''}` };
		};
		return { label, figures: { halfBus: cell('halfBus'), virtualNeutral: cell('virtualNeutral') } };
	};
	return [
		{
			title: 'Drive by drive',
			note: "angle that 95\u00a0% of a drive's commutations keep within, either way; below it, its interval",
			rows: [
				row(
					'Median drive',
					({ unitError }) => [errorWords(unitError.median), intervalWords(unitError.medianInterval)],
					({ typical }) => typical,
				),
				row(
					'1 drive in 20 exceeds',
					({ unitError }) => [errorWords(unitError.q95), intervalWords(unitError.q95Interval)],
					({ oneInTwenty }) => oneInTwenty,
				),
			],
		},
		{
			title: 'All commutations',
			note: 'of all drives together; late is positive',
			rows: [
				row('Mean', ({ angleError }) => [signedDegrees(angleError.mean)]),
				row('Standard deviation', ({ angleError }) => [degrees(angleError.sd)]),
				row('Middle 95\u00a0%', ({ angleError }) => [quantileSpan(angleError.quantiles, '0.025', '0.975')]),
				row('Middle 99\u00a0%', ({ angleError }) => [quantileSpan(angleError.quantiles, '0.005', '0.995')]),
				row('Largest', ({ angleError }) => [degrees(angleError.maxAbs)]),
			],
		},
		{
			title: 'Runs',
			note: 'each drive, from each start',
			rows: [
				row('Lost lock', ({ lost, runs }) => [count(lost), `of ${count(runs)}`]),
				row('Torque not reached', ({ torqueNotReached, runs, lost }) => [
					count(torqueNotReached),
					`of ${count(runs - lost)}${lost > 0 ? ' that kept lock' : ''}`,
				]),
				row('Mean torque', ({ meanTorque }) => [evenQuantity(meanTorque, 'N·m')]),
			],
		},
	];
}

/** One rate in the table behind the rates. */
export interface RateCells {
	readonly seen: string;
	readonly rate: string;
	readonly interval: string;
	readonly hourly: string;
}

/** The table behind the rates: count, rate and interval, per hour, the bound where none was seen; and the same computed. */
export function rateRows({ choices }: Pick<PointResult, 'choices'>) {
	const counted = ({ count: seen, rate, low, high, perHour: hourly, boundOn }: RateFigure): RateCells => {
		const none = boundOn === 'units';
		return {
			seen: count(seen),
			rate: none ? '–' : power(rate),
			interval: none ? affectedBound({ high }) : span(power(low), power(high)),
			hourly: none ? '–' : perHour(hourly),
		};
	};
	const computed = (figure: ComputedRate): RateCells => ({
		seen: '',
		rate: chance(figure.rate),
		interval: computedIntervalWords(figure),
		hourly: chancePerHour(figure.perHour),
	});
	return eventKinds.map((kind) => ({
		event: eventWords[kind],
		rows: choiceNames.map((choice) => {
			const { rates, computed: figures } = choices[choice];
			return { choice, counted: counted(rates[kind]), computed: figures && computed(figures[kind]) };
		}),
	}));
}

/** A unit-level error; a drive that lost lock ranks worse than any number. */
const errorWords = (value: number): string => (Number.isFinite(value) ? degrees(value) : 'lock lost');

const intervalWords = (interval: readonly [number, number] | null): string =>
	!interval
		? 'too few drives'
		: interval.some(Number.isFinite)
			? span(errorWords(interval[0]), errorWords(interval[1]))
			: '';

const quantileSpan = (quantiles: Readonly<Record<string, number>>, low: string, high: string): string =>
	span(signedDegrees(quantiles[low] ?? Number.NaN), signedDegrees(quantiles[high] ?? Number.NaN));
