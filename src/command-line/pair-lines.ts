import { type ChoiceName, choiceNames } from '../../shared/drive/drive.ts';
import { leastEffective } from '../../shared/statistics/effective-number.ts';
import type { PairedRates, PointResult } from '../../shared/study/result.ts';
import { unitFigureNames, unitFigures } from '../../shared/study/unit-figures.ts';
import { power, signedDegrees, span } from '../../shared/words/figures.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { row } from './two-columns.ts';
import { wrapText } from './wrap-text.ts';

/** The two choices on the same drives: differences of the drives' figures, passing, ratio of rates. */
export function pairLines({ choices, paired }: Pick<PointResult, 'choices' | 'paired'>): string[] {
	const { figures, rates } = paired;
	const unmeasured = choiceNames.filter((choice) => choices[choice].sectors === 0);
	return [
		row('On the same drives, half-bus', 'median difference', '95 % interval'),
		'less virtual neutral',
		...unitFigureNames.map((name) => {
			const { medianDifference, interval } = figures[name];
			return row(
				`  ${unitFigures[name].signed ? `size of ${unitFigures[name].short}` : unitFigures[name].words}`,
				medianDifference === null ? '–' : words(medianDifference),
				interval === null ? 'too few drives' : span(words(interval[0]), words(interval[1])),
			);
		}),
		wrapText(unmeasured.length > 0 ? unmeasuredLine(unmeasured) : ratioLine(rates)),
	];
}

const words = (difference: number): string =>
	Number.isFinite(difference) ? signedDegrees(difference) : difference > 0 ? 'half-bus lost' : 'neutral lost';

/** A choice that lost lock everywhere has no events because it has no sectors, and is not the cleaner one. */
function unmeasuredLine(choices: readonly ChoiceName[]): string {
	const which = choices.length > 1 ? 'either choice' : choices.map((choice) => choiceWords[choice]).join();
	return `No sector was measured with ${which}: no ratio of rates.`;
}

function ratioLine({ counted, computed }: PointResult['paired']['rates']): string {
	if (counted.withoutEvents === 'both' && (computed === null || computed.withoutEvents === 'both')) {
		return 'No event counted or to be expected with either choice: their rates cannot be compared.';
	}
	return computed
		? `${ratioWords(counted, 'counted')} ${ratioWords(computed, 'computed')}`
		: ratioWords(counted, 'counted');
}

function ratioWords({ ratio, interval, withoutEvents, few }: PairedRates, how: string): string {
	if (withoutEvents === 'both') return `No event ${how} with either choice: no ratio of rates.`;
	if (withoutEvents !== null) {
		return `No event ${how} with ${choiceWords[withoutEvents]}: there is no ratio of rates, only that the other has some.`;
	}
	const limits =
		interval !== null
			? `95 % interval ${span(power(interval[0]), power(interval[1]))}`
			: few
				? `no interval: under ${leastEffective} drives carry a rate`
				: 'no interval: too few drives have events';
	return `Rate of half-bus over that of virtual neutral, ${how}: ${ratio === null ? '–' : power(ratio)} (${limits}).`;
}
