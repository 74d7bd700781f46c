import type { BudgetsResult, KindBudgets } from '../../budgets/budgets-result.ts';
import { sectorName } from '../../budgets/budgets-sentence.ts';
import { drawnWithoutWords } from '../../budgets/drawn-without-words.ts';
import { type ChoiceName, choiceNames } from '../../drive/drive.ts';
import { degrees, percent, signedDegrees, span } from '../../words/figures.ts';
import { calculationLine } from '../calculation-line.ts';
import { markedChoice } from '../choice-mark.ts';
import { type Content, html, type Markup } from '../html.ts';
import { ofKind, type Report } from '../report.ts';
import { notComputed, type Section, section } from '../section.ts';
import { table } from '../table.ts';

const title = 'The classical tolerance budgets';
/** Sources listed for the worst kind of sector. */
const sourcesShown = 8;

/** Extreme value, root-sum-square and Monte Carlo of the same figure, side by side, and why they differ. */
export function budgets(report: Report): Section {
	const found = ofKind(report, 'budgets');
	if (found.length === 0) {
		return notComputed(
			report,
			'budgets',
			title,
			'The extreme-value and root-sum-square budgets that a hand calculation would give are not shown here.',
		);
	}
	return section(
		'budgets',
		title,
		html`<p>All three are budgets of the same figure: a drive's mean angle error in each of the six kinds of sector, from
noise-free crossings interpolated between readings, as a change against the drive with every part and condition in the
middle of its limits.</p>
${found.map(
	({ result }) => html`<section class="point"><h3>${result.point}</h3>
<p>${result.sentence}</p>
${choiceNames.map((choice) => choiceTables(result, choice))}
<p>${result.why}</p>
${calculationLine('budgets', result.provenance)}</section>`,
)}`,
	);
}

function choiceTables({ choices, sources }: BudgetsResult, choice: ChoiceName): Content {
	const { kinds, without, drawnWithout, worstKind } = choices[choice];
	const lost =
		without.length > 0 &&
		`No figure (lock lost, or no crossing found) with: ${without.join(', ')}${without[0] === 'the nominal drive' ? '' : ' at a limit'}.`;
	if (kinds.every((one) => one === null))
		return html`<p>${markedChoice(choice)}: ${lost || 'no budget could be made.'}</p>`;
	const worst = worstKind === null ? null : kinds[worstKind];
	return [
		table({
			caption: html`${markedChoice(choice)}: change against the drive in the middle of all limits`,
			head: ['Open phase', 'extreme, summed', 'extreme, that drive run', 'root-sum-square', '95 % of drawn drives'],
			rows: kinds.map((one, kind) => ({
				cells: [
					sectorName(kind),
					...(one === null
						? ['no budget', '', '', '']
						: [
								`±${degrees(one.extremeValue.linear)}`,
								span(drive(one.extremeValue.low), drive(one.extremeValue.high)),
								`±${degrees(one.rootSumSquare)}`,
								one.monteCarlo?.interval
									? span(signedDegrees(one.monteCarlo.interval[0]), signedDegrees(one.monteCarlo.interval[1]))
									: 'too few drives',
							]),
				],
			})),
			notes: [lost, drawnWithout > 0 && drawnWithoutWords(drawnWithout)],
		}),
		worst && worstKind !== null && effectTable(worst, worstKind, choice, sources),
	];
}

function effectTable(
	{ effects, rootSumSquare }: KindBudgets,
	kind: number,
	choice: ChoiceName,
	sources: BudgetsResult['sources'],
): Markup {
	const ranked = effects
		.map(([low, high], place) => ({ low, high, half: (high - low) / 2, name: sources[place]?.name ?? '' }))
		.filter(({ half }) => half !== 0)
		.sort((one, other) => Math.abs(other.half) - Math.abs(one.half));
	return table({
		caption: html`${markedChoice(choice)}: what moves the sectors of ${sectorName(kind)} most, each alone`,
		head: ['', 'at its lower limit', 'at its upper limit', 'of the squares'],
		rows: ranked.slice(0, sourcesShown).map(({ name, low, high, half }) => ({
			cells: [name, signedDegrees(low), signedDegrees(high), percent((half * half) / (rootSumSquare * rootSumSquare))],
		})),
	});
}

const drive = (change: number | null): string => (change === null ? 'lost' : signedDegrees(change));
