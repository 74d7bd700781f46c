import { type ChoiceName, choiceNames } from '../../shared/drive/drive.ts';
import type { ChoiceTuning, FirmwareResult } from '../../shared/firmware/firmware-result.ts';
import type { Tuning } from '../../shared/firmware/fit-tuning.ts';
import type { PointMean } from '../../shared/firmware/point-means.ts';
import { restsOnFew, restsOnFewRemark, variantLegend } from '../../shared/variants/variant-cells.ts';
import { count, degrees, signedDegrees } from '../../shared/words/figures.ts';
import { levelWords } from '../../shared/words/level.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { quantity } from '../../shared/words/quantity.ts';
import { heading, provenanceLines } from './provenance-lines.ts';
import { variantHead, variantRow } from './variant-rows.ts';
import { padEnd, padStart, wrapText } from './wrap-text.ts';

/** What firmware can take out, as a text of 80 columns: the answer, the settings and figures of each choice, what they rest on. */
export function firmwareTable(result: FirmwareResult): string {
	const { provenance, choices } = result;
	const { asked, finished } = provenance.units;
	const lines = [wrapText(`${provenance.scenario}: what firmware can take out`), '', wrapText(result.sentence)];
	if (provenance.partial) {
		lines.push(
			wrapText(`PARTIAL RESULT: interrupted after ${count(finished)} of ${count(asked)} drives, all runs counted.`),
		);
	}
	for (const choice of choiceNames) {
		const { rounds, confirmed } = choices[choice];
		// cut short in the first round nothing was tuned; where all drives lost lock there are fresh ones to tell of
		if (rounds > 0 || confirmed !== null) lines.push('', ...choiceLines(result, choice));
	}
	const shown = choiceNames.flatMap((choice) => choices[choice].confirmed ?? []);
	if (shown.length > 0) lines.push('', wrapText(variantLegend));
	if (shown.some(({ before, after }) => restsOnFew(before.points) || restsOnFew(after.points))) {
		lines.push(wrapText(restsOnFewRemark, { rest: '  ' }));
	}
	lines.push(wrapText(result.requirement.sentence));
	if (shown.length > 0) {
		lines.push(wrapText(`Figures are of fresh drives, drawn with the seed “${result.confirmationSeed}”.`));
	}
	lines.push(...provenanceLines(provenance));
	return `${lines.join('\n')}\n`;
}

function choiceLines({ choices, advance, requirement }: FirmwareResult, choice: ChoiceName): string[] {
	const { before, after, confirmed } = choices[choice];
	return [
		heading(choiceWords[choice]),
		cells(['', 'before', 'after', '', '']),
		cells(['compensation', time(before), time(after), '', '']),
		cells(['advance', ...[before, after].map(({ advanceTrim }) => degrees(advance + advanceTrim)), '', '']),
		...(confirmed === null ? [] : confirmedLines(confirmed, levelWords(requirement.confidence))),
	];
}

function confirmedLines({ before, after }: NonNullable<ChoiceTuning['confirmed']>, confidence: string): string[] {
	return [
		'',
		cells(['mean error,', '', '', 'deviation from', 'of all']),
		cells(['standard error', 'before', 'after', 'drive to drive', 'commutations']),
		...after.error.points.map((point, place) =>
			cells([
				point.name,
				meanWords(before.error.points[place] ?? point),
				meanWords(point),
				deviationWords(point.betweenDrives),
				deviationWords(point.ofCommutations),
			]),
		),
		...(after.error.points.length > 1
			? [cells(['over all', meanWords(before.error), meanWords(after.error), '', ''])]
			: []),
		'',
		...variantHead('', confidence),
		variantRow('before', before),
		variantRow('after', after),
	];
}

/** Drives that lost lock have no mean. */
const meanWords = ({ mean, standardError }: Pick<PointMean, 'mean' | 'standardError'>): string =>
	Number.isNaN(mean) ? 'lock lost' : `${signedDegrees(mean)}, ${deviationWords(standardError)}`;

const deviationWords = (deviation: number): string => (Number.isNaN(deviation) ? '–' : degrees(deviation));

const time = ({ compensation }: Tuning): string => quantity(compensation, 's');

function cells([label = '', ...figures]: readonly string[]): string {
	return (padEnd(label, 18) + figures.map((figure, i) => padStart(figure, i < 2 ? 16 : 15)).join('')).trimEnd();
}
