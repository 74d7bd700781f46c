import { choiceNames } from '../../drive/drive.ts';
import type { CombinationResult, EnvelopeResult } from '../../envelope/envelope-result.ts';
import { isWorse } from '../../envelope/worst.ts';
import type { NumberRecord } from '../../parameters/parameter.ts';
import { parameter } from '../../parameters/parameters.ts';
import { judgedUnits } from '../../variants/judged-units.ts';
import { restsOnFew, restsOnFewRemark, variantCells } from '../../variants/variant-cells.ts';
import { levelWords } from '../../words/level.ts';
import { quantity } from '../../words/quantity.ts';
import { calculationLine } from '../calculation-line.ts';
import { markedChoice } from '../choice-mark.ts';
import { html, type Markup } from '../html.ts';
import { ofKind, type Report } from '../report.ts';
import { notComputed, type Section, section } from '../section.ts';
import { table } from '../table.ts';

const title = 'The envelope of conditions';
/** Combinations shown for each choice, the worst first. */
const shown = 6;

/** All combinations of the limits of the conditions, and the worst for each choice. */
export function envelope(report: Report): Section {
	const [found] = ofKind(report, 'envelope');
	if (!found) {
		return notComputed(
			report,
			'envelope',
			title,
			'Whether the requirement also holds in every corner of the stated ranges (all of a condition’s low and high limits together) is not shown here; inside the ranges the study has drawn at random.',
		);
	}
	const { result } = found;
	return section(
		'envelope',
		title,
		html`<p>${result.sentence}</p>
<p>This is a harsher question than the verdict's: there every condition is drawn anew for each start inside its range,
here it stands at a limit in all of them. Where the requirement must hold in every corner, the share that passes at every combination counts.</p>
${choiceNames.map((choice) => combinationTable(result, choice))}
${calculationLine('envelope', result.provenance)}`,
	);
}

function combinationTable(result: EnvelopeResult, choice: (typeof choiceNames)[number]): Markup {
	const ordered = result.combinations
		.filter(({ units }) => units.finished > 0)
		.sort((one, other) => (isWorse(one, other, choice) ? -1 : isWorse(other, one, choice) ? 1 : 0));
	const rows = ordered.slice(0, shown);
	const confidence = levelWords(result.requirement.confidence);
	const few = rows.some((one) => restsOnFew(one.choices[choice].points));
	return table({
		caption: html`${markedChoice(choice)}: the worst combinations, ${rows.length} of ${ordered.length}`,
		head: [
			'Limits',
			'pass',
			`${confidence} limits, one-sided`,
			'verdict',
			'median drive',
			'worst 5\u00a0%',
			'wrong an hour, computed',
		],
		words: [3],
		rows: rows.map((one) => {
			const { share, low, high, decision, median, worse, computed } = variantCells(one.choices[choice]);
			const star = restsOnFew(one.choices[choice].points) ? '*' : '';
			return { cells: [limitWords(one), share, `${low} … ${high}`, decision, median, worse, `${computed}${star}`] };
		}),
		notes: [
			`${judgedUnits(ordered, result.unitsPerCombination).words} at each combination; the angle is the one that 95 % of a drive’s commutations keep within. The worst is picked from many on the same drives, so its own share tends to be a little too low.`,
			few && restsOnFewRemark,
		],
	});
}

function limitWords({ point, limits, conditions }: CombinationResult): Markup {
	const ends = Object.entries(limits).map(([id, limit]) => {
		const { name, unit } = parameter(id) as NumberRecord;
		return `${name} ${limit} (${quantity(conditions[id] as number, unit)})`;
	});
	return html`${point}<small>${ends.join(', ')}</small>`;
}
