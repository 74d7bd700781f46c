import type { PerChoice } from '../../shared/drive/drive.ts';
import type { ComparedFigure, ReplicatesResult } from '../../shared/replicates/replicates-result.ts';
import type { ReplicateEstimate } from '../../shared/statistics/replicate-interval.ts';
import { count, degrees, percent, signedDegrees } from '../../shared/words/figures.ts';
import { levelWords } from '../../shared/words/level.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { heading, provenanceLines } from './provenance-lines.ts';
import { row } from './two-columns.ts';
import { wrapText } from './wrap-text.ts';

/** A study on stratified draws as a text of 80 columns: the answer, each figure with its interval over replicates, what they rest on. */
export function replicatesTable(result: ReplicatesResult): string {
	const { provenance, points, passing, requirement } = result;
	const { draws, units } = provenance;
	const lines = [wrapText(`${provenance.scenario}: half-bus against virtual-neutral sensing, stratified draws`)];
	if (provenance.partial) {
		lines.push(
			wrapText(
				`PARTIAL RESULT: interrupted after ${count(units.finished)} of ${count(units.asked)} drives; figures are of ${count(draws.replicates.finished)} whole replicates of ${count(draws.replicates.asked)}.`,
			),
		);
	}
	lines.push('', wrapText(result.sentence), '', wrapText(requirement.sentence));
	if (draws.replicates.finished > 0) {
		lines.push('', ...figureLines('all points', [['drives that pass', passing, percent]], provenance.level));
		for (const point of points) {
			lines.push(
				'',
				...figureLines(
					point.name,
					[
						['drives that pass', point.passing, percent],
						['mean angle error (late is +)', point.meanError, signedDegrees],
						['95 % figure, mean drive', point.error95, degrees],
						['95 % figure, 1 in 20 above', point.worse, degrees],
					],
					provenance.level,
				),
			);
		}
	}
	lines.push(...provenanceLines(provenance));
	return `${lines.join('\n')}\n`;
}

type Figure = readonly [
	label: string,
	figure: PerChoice<ReplicateEstimate> & Partial<ComparedFigure>,
	words: (value: number) => string,
];

function figureLines(title: string, figures: readonly Figure[], level: number): string[] {
	const lines = [heading(title), row('', choiceWords.halfBus, choiceWords.virtualNeutral)];
	for (const [label, { halfBus, virtualNeutral }, words] of figures) {
		lines.push(row(label, estimateWords(halfBus, words), estimateWords(virtualNeutral, words)));
		lines.push(row(`  ${levelWords(level)} interval`, limits(halfBus, words), limits(virtualNeutral, words)));
	}
	return lines;
}

/** A drive that lost lock lies beyond any angle. */
const estimateWords = ({ estimate }: ReplicateEstimate, words: (value: number) => string): string =>
	Number.isFinite(estimate) ? words(estimate) : 'lock lost';

const limits = ({ interval }: ReplicateEstimate, words: (value: number) => string): string =>
	interval === null ? '–' : `${words(interval.low)} … ${words(interval.high)}`;
