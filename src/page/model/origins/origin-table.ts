import type { BudgetsResult } from '../../../../shared/budgets/budgets-result.ts';
import { sectorName } from '../../../../shared/budgets/budgets-sentence.ts';
import { drawnWithoutWords } from '../../../../shared/budgets/drawn-without-words.ts';
import type { ChoiceName } from '../../../../shared/drive/drive.ts';
import { bareName, isSlight, kindsOffTheSix } from '../../../../shared/origins/origin-words.ts';
import type { OriginsResult, Share } from '../../../../shared/origins/origins-result.ts';
import { shareWords } from '../../../../shared/origins/origins-sentence.ts';
import { count, degrees, signedDegrees, span } from '../../../../shared/words/figures.ts';

/** One choice's shares, the largest first, with those of the baseline; what is slight or still is named below them. */
export function originTable({ choices, rows: asked }: OriginsResult, choice: ChoiceName, ghost: OriginsResult | null) {
	const origins = choices[choice];
	const { groups, still, rows, rowsWithout } = origins;
	const ghostOf = (id: string) => ghost?.choices[choice].groups.find((group) => group.id === id);
	const cell = (share: Share, before: Share | undefined) => ({
		main: shareWords(share.value),
		detail: Number.isFinite(share.low) ? span(shareWords(share.low), shareWords(share.high)) : 'too few rows',
		was: before ? `was ${shareWords(before.value)}` : '',
	});
	const named = (lead: string, names: readonly string[]): readonly string[] =>
		names.length > 0 ? [`${lead}: ${names.map(bareName).join(', ')}.`] : [];
	const slight = groups.filter(isSlight).map(({ name }) => name);
	const kinds = kindsOffTheSix(origins);
	return {
		shares: groups
			.filter((group) => !isSlight(group))
			.map(({ id, name, first, total }) => ({
				name: bareName(name),
				alone: cell(first, ghostOf(id)?.first),
				together: cell(total, ghostOf(id)?.total),
			})),
		notes: [
			...named('Below half a per cent, each', slight),
			...named('Without spread of their own here', still),
			...(rowsWithout > 0
				? [
						`${count(rowsWithout)} of ${count(asked)} rows are left out, since a drive of each lost lock or found no crossing in some sector kind${rows > 0 ? ': the shares hold for the others' : ''}.`,
					]
				: []),
		],
		offTheSix: kinds.words,
		sectors:
			rows > 0
				? kinds.rows.map(({ off, sd, most }, kind) => ({
						sector: sectorName(kind),
						off: signedDegrees(off),
						sd: degrees(sd),
						most,
					}))
				: [],
	};
}

/** Sources named in a list; a result file has all. */
const sourcesShown = 8;

/** One choice's budgets sector by sector, and what moves the worst sector most. */
export function budgetTable({ choices, sources }: BudgetsResult, choice: ChoiceName) {
	const { kinds, worstKind, without, drawnWithout } = choices[choice];
	const end = (change: number | null): string => (change === null ? 'lost' : signedDegrees(change));
	const worst = worstKind === null ? null : kinds[worstKind];
	return {
		sectors: kinds.map((one, kind) => ({
			sector: sectorName(kind),
			isWorst: kind === worstKind,
			cells: one
				? {
						summed: `±${degrees(one.extremeValue.linear)}`,
						run: span(end(one.extremeValue.low), end(one.extremeValue.high)),
						rootSumSquare: `±${degrees(one.rootSumSquare)}`,
						drawn: one.monteCarlo?.interval
							? span(signedDegrees(one.monteCarlo.interval[0]), signedDegrees(one.monteCarlo.interval[1]))
							: 'too few drives',
					}
				: null,
		})),
		notes: [
			...(without.length > 0
				? [
						`No figure (lock lost, or no crossing found) with: ${without.join(', ')}${without[0] === 'the nominal drive' ? '' : ' at a limit'}.`,
					]
				: []),
			...(drawnWithout > 0 ? [drawnWithoutWords(drawnWithout)] : []),
		],
		worstSector: worstKind === null ? '' : sectorName(worstKind),
		sources: worst
			? worst.effects
					.map(([low, high], place) => ({ low, high, name: sources[place]?.name ?? '' }))
					.sort((one, other) => Math.abs(other.high - other.low) - Math.abs(one.high - one.low))
					.slice(0, sourcesShown)
					.map(({ low, high, name }) => ({ name, low: signedDegrees(low), high: signedDegrees(high) }))
			: [],
	};
}
