import { type ChoiceName, choiceNames } from '../../shared/drive/drive.ts';
import type { RangeResult, RangeValue } from '../../shared/range/range-result.ts';
import { placeWords, valueWords } from '../../shared/range/setting.ts';
import { restsOnFew, restsOnFewRemark, variantLegend } from '../../shared/variants/variant-cells.ts';
import { count } from '../../shared/words/figures.ts';
import { levelWords } from '../../shared/words/level.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { heading, provenanceLines } from './provenance-lines.ts';
import { variantHead, variantRow } from './variant-rows.ts';
import { wrapText } from './wrap-text.ts';

/** A range as a text of 80 columns: the answer, a table for each choice, what they rest on. */
export function rangeTable(result: RangeResult): string {
	const { provenance, axes, values } = result;
	const { asked, finished } = provenance.units;
	const names = axes.map(({ name }) => name).join(' and ');
	const lines = [
		wrapText(`${provenance.scenario}: over ${names}${result.point === null ? '' : `, at ${result.point}`}`),
		'',
		wrapText(result.sentence),
	];
	if (provenance.partial) {
		lines.push(
			wrapText(`PARTIAL RESULT: interrupted after ${count(finished)} of ${count(asked)} drives, all values counted.`),
		);
	}
	if (finished > 0) for (const choice of choiceNames) lines.push('', ...choiceLines(result, choice));
	lines.push('', wrapText(variantLegend));
	if (choiceNames.some((choice) => values.some(({ choices }) => restsOnFew(choices[choice].points)))) {
		lines.push(wrapText(restsOnFewRemark, { rest: '  ' }));
	}
	const isOwn = new Set(values.map(({ compensation }) => JSON.stringify(compensation))).size > 1;
	// values that share one may be tuned apart from the scenario as it stands
	const { compensation = provenance.compensation } = values[0] ?? {};
	lines.push(
		wrapText(result.requirement.sentence),
		...(isOwn
			? provenanceLines(provenance, 'each value has its own')
			: provenanceLines({ ...provenance, compensation })),
	);
	return `${lines.join('\n')}\n`;
}

/** One choice's table; with two axes, a part for each value of the second. */
function choiceLines({ axes, values: all, slowest, requirement }: RangeResult, choice: ChoiceName): string[] {
	const [first, second] = axes;
	// of what the search looked at, only where it ended
	const ends = (slowest ?? []).flatMap(({ choices }) => [choices[choice].holds, choices[choice].fails]);
	const values = all.filter((value) => !value.isSearched || ends.includes(at(value, 'operation.speed')));
	const lines = [
		heading(`${choiceWords[choice]}, by ${first?.name ?? ''}`),
		...variantHead('', levelWords(requirement.confidence)),
	];
	const rows = (shown: readonly RangeValue[]): string[] =>
		[...shown]
			.sort((one, other) => at(one, first?.id) - at(other, first?.id))
			.map((value) => variantRow(rowLabel(value, first?.id), value.choices[choice]));
	if (second === undefined) return [...lines, ...rows(values)];
	return [
		...lines,
		...[...new Set(values.map((value) => at(value, second.id)))]
			.sort((one, other) => one - other)
			.flatMap((level) => [
				placeWords({ [second.id]: level }),
				...rows(values.filter((value) => at(value, second.id) === level)),
			]),
	];
}

const at = ({ at: setting }: RangeValue, id = ''): number => setting[id] ?? Number.NaN;

/** Values that the search for the slowest speed added are marked. */
const rowLabel = (value: RangeValue, id = ''): string =>
	`${value.isSearched ? '› ' : '  '}${valueWords(id, at(value, id))}`;
