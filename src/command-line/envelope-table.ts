import { type ChoiceName, choiceNames } from '../../shared/drive/drive.ts';
import type { CombinationResult, EnvelopeResult } from '../../shared/envelope/envelope-result.ts';
import { isWorse } from '../../shared/envelope/worst.ts';
import { parameters } from '../../shared/parameters/parameters.ts';
import { restsOnFew, restsOnFewRemark, variantLegend } from '../../shared/variants/variant-cells.ts';
import { count } from '../../shared/words/figures.ts';
import { levelWords } from '../../shared/words/level.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { heading, provenanceLines } from './provenance-lines.ts';
import { variantHead, variantRow } from './variant-rows.ts';
import { wrapText } from './wrap-text.ts';

/** Combinations shown for each choice; the JSON has all. */
const shown = 10;
/** Signs of a point's name that fit beside its limits. */
const nameWidth = 7;

/** An envelope as a text of 80 columns: the answer, the worst combinations for each choice, what they rest on. */
export function envelopeTable(result: EnvelopeResult): string {
	const { provenance, combinations } = result;
	const { asked, finished } = provenance.units;
	const lines = [wrapText(`${provenance.scenario}: all limits of the conditions`), '', wrapText(result.sentence)];
	if (provenance.partial) {
		lines.push(
			wrapText(
				`PARTIAL RESULT: interrupted after ${count(finished)} of ${count(asked)} drives, all combinations counted.`,
			),
		);
	}
	const ids = parameters.map(({ id }) => id).filter((id) => combinations.some(({ limits }) => limits[id]));
	if (finished > 0) {
		for (const choice of choiceNames) lines.push('', ...choiceLines(result, choice, ids));
		const names = ids.map((id) => parameters.find((record) => record.id === id)?.name ?? id);
		const signs = names.length > 0 ? `Signs: + high, − low limit of ${names.join(', ')}, in this order. ` : '';
		lines.push('', wrapText(signs + variantLegend));
	}
	if (choiceNames.some((choice) => combinations.some(({ choices }) => restsOnFew(choices[choice].points)))) {
		lines.push(wrapText(restsOnFewRemark, { rest: '  ' }));
	}
	lines.push(wrapText(result.requirement.sentence), ...provenanceLines(provenance));
	return `${lines.join('\n')}\n`;
}

function choiceLines(
	{ combinations, requirement }: EnvelopeResult,
	choice: ChoiceName,
	ids: readonly string[],
): string[] {
	const ordered = combinations
		.filter(({ units }) => units.finished > 0)
		.sort((one, other) => (isWorse(one, other, choice) ? -1 : isWorse(other, one, choice) ? 1 : 0));
	const left = ordered.length - shown;
	return [
		heading(`${choiceWords[choice]}, the worst first`),
		...variantHead('limits', levelWords(requirement.confidence)),
		...ordered.slice(0, shown).map((one) => variantRow(label(one, ids), one.choices[choice])),
		...(left > 0 ? [`and ${count(left)} less bad (JSON: all)`] : []),
	];
}

function label({ point, limits }: CombinationResult, ids: readonly string[]): string {
	const signs = ids.map((id) => (limits[id] === 'high' ? '+' : limits[id] === 'low' ? '−' : '·')).join('');
	const width = Math.max(nameWidth, 12 - ids.length);
	return `${[...point].slice(0, width).join('').padEnd(Math.min(width, nameWidth))} ${signs}`;
}
