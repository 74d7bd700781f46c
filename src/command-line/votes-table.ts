import { type ChoiceName, choiceNames } from '../../shared/drive/drive.ts';
import { restsOnFew, restsOnFewRemark, variantLegend } from '../../shared/variants/variant-cells.ts';
import { filterWords, isSameFilter } from '../../shared/votes/cell.ts';
import { latest } from '../../shared/votes/finalists.ts';
import type { CellFigures, VotesResult } from '../../shared/votes/votes-result.ts';
import { chancePerHour, count, degrees, percent } from '../../shared/words/figures.ts';
import { levelWords } from '../../shared/words/level.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { quantity } from '../../shared/words/quantity.ts';
import { heading, provenanceLines } from './provenance-lines.ts';
import { variantHead, variantRow } from './variant-rows.ts';
import { padEnd, padStart, wrapText } from './wrap-text.ts';

/** The plane of filters and noise as a text of 80 columns: the answer, each choice's table and finalists, what they rest on. */
export function votesTable(result: VotesResult): string {
	const { provenance, choices, judged } = result;
	const { asked, finished } = provenance.units;
	const lines = [wrapText(`${provenance.scenario}: majority filters and noise`), '', wrapText(result.sentence)];
	if (provenance.partial) {
		lines.push(
			wrapText(`PARTIAL RESULT: interrupted after ${count(finished)} of ${count(asked)} drives, all runs counted.`),
		);
	}
	if (finished > 0) {
		for (const choice of choiceNames) lines.push('', ...planeLines(result, choice));
		lines.push(
			'',
			wrapText(
				`wrong/h: early, late and missed crossings together in an operating hour, computed from the noise-free readings of ${count(judged)} drives. pass: drives that keep the hourly and the angle limit there, lock and torque as they ran with the filter and noise stated (›). after: how long after the EMF's crossing it is accepted, at the point and noise (the one stated) where it is longest.`,
			),
		);
		const confirmed = choiceNames.flatMap((choice) => choices[choice].finalists.flatMap((one) => one.confirmed ?? []));
		if (confirmed.length > 0) {
			lines.push(...choiceNames.flatMap((choice) => finalistLines(result, choice)));
			lines.push('', wrapText(`${variantLegend} Fresh drives, drawn with the seed “${result.confirmationSeed}”.`));
		}
		if (confirmed.some(({ points }) => restsOnFew(points))) lines.push(wrapText(restsOnFewRemark, { rest: '  ' }));
	}
	lines.push(wrapText(result.requirement.sentence), ...provenanceLines(provenance));
	return `${lines.join('\n')}\n`;
}

function planeLines({ choices, filters, sigmas, own, judged }: VotesResult, choice: ChoiceName): string[] {
	const { cells } = choices[choice];
	const at = (place: number): readonly CellFigures[] => cells.slice(place * sigmas.length, (place + 1) * sigmas.length);
	return [
		heading(choiceWords[choice]),
		line(
			'noise',
			sigmas.flatMap((sigma) => [`${sigma === own.sigma ? '› ' : ''}${quantity(sigma, 'V', 3)}`, '']),
			'',
		),
		line(
			'votes',
			sigmas.flatMap(() => ['wrong/h', 'pass']),
			'after',
		),
		...filters.map((filter, place) =>
			line(
				`${isSameFilter(filter, own) ? '› ' : '  '}${filterWords(filter)}`,
				at(place).flatMap(({ crossingsPerHour, passing }) => [
					Number.isNaN(crossingsPerHour.all) ? '–' : chancePerHour(crossingsPerHour.all),
					percent(passing / judged).replace(/\s%$/, ''),
				]),
				degrees(latest(at(place).find(({ sigma }) => sigma === own.sigma) ?? { acceptsAfter: [] })),
			),
		),
	];
}

function finalistLines({ choices, requirement }: VotesResult, choice: ChoiceName): string[] {
	return [
		'',
		heading(`${choiceWords[choice]}, simulated in full`),
		...variantHead('votes', levelWords(requirement.confidence)),
		...choices[choice].finalists.flatMap(({ confirmed, predicted, reasons, ...filter }) =>
			confirmed === null
				? []
				: [
						variantRow(filterWords(filter), confirmed),
						wrapText(
							`Why it is here: ${reasons.join(', ')}. The table above has ${chancePerHour(predicted)} wrong/h for it.`,
							{
								first: '  ',
								rest: '  ',
							},
						),
					],
		),
	];
}

/** 10 columns of label, up to three pairs of 12 and 6, 8 at the end: 72. */
function line(label: string, pairs: readonly string[], last: string): string {
	const cells = pairs.map((cell, place) => padStart(cell, place % 2 === 0 ? 12 : 6));
	return (padEnd(label, 10) + cells.join('') + padStart(last, 8)).trimEnd();
}
