import type { BudgetsResult, ChoiceBudgets, KindBudgets } from '../../shared/budgets/budgets-result.ts';
import { sectorName } from '../../shared/budgets/budgets-sentence.ts';
import { drawnWithoutWords } from '../../shared/budgets/drawn-without-words.ts';
import { choiceNames } from '../../shared/drive/drive.ts';
import { count, degrees, percent, signedDegrees, span } from '../../shared/words/figures.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { heading, provenanceLines } from './provenance-lines.ts';
import { padEnd, padStart, wrapText } from './wrap-text.ts';

/** Sources named in a list; the JSON has all. */
const sourcesShown = 10;

/** The three budgets side by side, as a text of 80 columns: the answer, the budgets, why they differ, what they rest on. */
export function budgetsTable(result: BudgetsResult): string {
	const { provenance, point, choices, sources } = result;
	const lines = [
		wrapText(`${provenance.scenario}: three budgets of the mean angle error at ${point}`),
		'',
		wrapText(result.sentence),
	];
	if (provenance.partial) {
		const { asked, finished } = provenance.units;
		lines.push(wrapText(`PARTIAL RESULT: interrupted after ${count(finished)} of ${count(asked)} drives.`));
	}
	for (const choice of choiceNames) {
		lines.push('', heading(choiceWords[choice]), ...choiceLines(choices[choice], sources));
	}
	lines.push('', heading('Why they differ'), wrapText(result.why), ...provenanceLines(provenance));
	return `${lines.join('\n')}\n`;
}

function choiceLines(budgets: ChoiceBudgets, sources: BudgetsResult['sources']): string[] {
	const { kinds, drawnWithout, without, worstKind } = budgets;
	const worst = worstKind === null ? null : kinds[worstKind];
	const columns = (label: string, linear: string, run: string, rss: string, drawn: string): string =>
		padEnd(label, 18) + padStart(linear, 10) + padStart(run, 20) + padStart(rss, 12) + padStart(drawn, 20);
	if (kinds.every((one) => one === null)) return [withoutWords(without)];
	return [
		columns('Change against', 'extreme,', 'extreme,', 'root-sum-', '95 % of'),
		columns('the middle drive', 'summed', 'that drive run', 'square', 'drawn drives'),
		...kinds.map((one, kind) =>
			one === null
				? `  ${padEnd(sectorName(kind), 18)}no budget`
				: columns(
						`  ${sectorName(kind)}`,
						`±${degrees(one.extremeValue.linear)}`,
						span(board(one.extremeValue.low), board(one.extremeValue.high)),
						`±${degrees(one.rootSumSquare)}`,
						one.monteCarlo?.interval
							? span(signedDegrees(one.monteCarlo.interval[0]), signedDegrees(one.monteCarlo.interval[1]))
							: 'too few drives',
					),
		),
		...(without.length > 0 ? [withoutWords(without)] : []),
		...(drawnWithout > 0 ? [wrapText(drawnWithoutWords(drawnWithout))] : []),
		...(worst && worstKind !== null ? ['', ...effectLines(worst, worstKind, sources)] : []),
	];
}

const withoutWords = (without: readonly string[]): string =>
	without.length === 0
		? 'Cut short before a budget could be made.'
		: wrapText(
				`No figure (lock lost, or no crossing found) with: ${without.join(', ')}${without[0] === 'the nominal drive' ? '' : ' at a limit'}.`,
			);

/** The sources that move the worst sector kind most, each alone. */
function effectLines(
	{ effects, rootSumSquare }: KindBudgets,
	kind: number,
	sources: BudgetsResult['sources'],
): string[] {
	const ranked = effects
		.map(([low, high], place) => ({ low, high, s: (high - low) / 2, name: sources[place]?.name ?? '' }))
		.sort((one, other) => Math.abs(other.s) - Math.abs(one.s));
	const columns = (label: string, low: string, high: string, share: string): string =>
		padEnd(label, 36) + padStart(low, 14) + padStart(high, 14) + padStart(share, 16);
	return [
		columns(`Most for ${sectorName(kind)}, each alone`, 'lower limit', 'upper limit', 'of the squares'),
		...ranked
			.slice(0, sourcesShown)
			.filter(({ s }) => s !== 0)
			.map(({ name, low, high, s }) =>
				columns(
					`  ${name}`,
					signedDegrees(low),
					signedDegrees(high),
					percent((s * s) / (rootSumSquare * rootSumSquare)),
				),
			),
	];
}

const board = (change: number | null): string => (change === null ? 'lost' : signedDegrees(change));
