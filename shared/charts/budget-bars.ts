import type { TopLevelSpec } from 'vega-lite';
import type { BudgetsResult, KindBudgets } from '../budgets/budgets-result.ts';
import { choiceNames } from '../drive/drive.ts';
import { signedDegrees, span } from '../words/figures.ts';
import { choiceWords } from '../words/names.ts';
import { intervalRows } from './interval-rows.ts';
import type { ChartTheme } from './theme.ts';

/** The budgets side by side, the classical ones above the drawn drives. */
const bars: readonly {
	readonly name: string;
	readonly isDrawn: boolean;
	readonly read: (budgets: KindBudgets) => readonly [low: number | null, high: number | null, mean: number | null];
}[] = [
	{
		name: 'extreme value, summed',
		isDrawn: false,
		read: ({ extremeValue }) => [-extremeValue.linear, extremeValue.linear, null],
	},
	{
		name: 'extreme value, that drive run',
		isDrawn: false,
		read: ({ extremeValue }) => [extremeValue.low, extremeValue.high, null],
	},
	{ name: 'root-sum-square', isDrawn: false, read: ({ rootSumSquare }) => [-rootSumSquare, rootSumSquare, null] },
	{
		name: '95 % of drawn drives',
		isDrawn: true,
		read: ({ monteCarlo }) => [
			monteCarlo?.interval?.[0] ?? null,
			monteCarlo?.interval?.[1] ?? null,
			monteCarlo?.mean ?? null,
		],
	},
];

/**
 * For each choice the sector kind that its extreme value moves furthest: the
 * classical budgets (dotted) and what 95 % of drawn drives keep within, as
 * changes against the drive in the middle.
 *
 * @param ghost an earlier result's drawn drives, their mean as a grey tick
 */
export function budgetBars(
	result: BudgetsResult,
	theme: ChartTheme,
	description: string,
	ghost?: BudgetsResult | null,
): TopLevelSpec {
	const rows = barRows(result);
	const reach = Math.max(0.1, ...rows.flatMap(({ low, high }) => [Math.abs(low ?? 0), Math.abs(high ?? 0)]));
	const domain = [-1.05 * reach, 1.05 * reach];
	const before = ghost
		? barRows(ghost).filter(({ mean }) => mean !== null && Math.abs(mean) <= (domain[1] as number))
		: null;
	return intervalRows(
		{
			name: 'budgets',
			rows,
			ghost: before,
			fields: { row: 'budget', value: 'mean', low: 'low', high: 'high', open: 'classical', openAt: ['low', 'high'] },
			order: bars.map(({ name }) => name),
			height: 250,
			scale: { domain, nice: false },
			axis: {
				title: 'change of the mean error, degrees',
				tickCount: 7,
				labelExpr: "replace(datum.label, '-', '−') + '°'",
			},
			limit: { at: 0, words: '' },
		},
		theme,
		description,
	);
}

const barRows = ({ choices }: BudgetsResult) =>
	choiceNames.flatMap((choice) => {
		const { worstKind, kinds } = choices[choice];
		const worst = worstKind === null ? null : kinds[worstKind];
		if (!worst) return [];
		return bars.map(({ name, isDrawn, read }) => {
			const [low, high, mean] = read(worst);
			const end = (value: number | null): string => (value === null ? 'lost' : signedDegrees(value));
			return {
				budget: name,
				choice,
				low,
				high,
				mean,
				classical: !isDrawn,
				says: `${choiceWords[choice]}, ${name}: ${span(end(low), end(high))}`,
			};
		});
	});
