import type { TopLevelSpec } from 'vega-lite';
import type { PerChoice } from '../drive/drive.ts';
import { choiceNames } from '../drive/drive.ts';
import type { ChoiceFigures } from '../study/result.ts';
import { signedDegrees } from '../words/figures.ts';
import { choiceWords, sectorWords } from '../words/names.ts';
import { zeroRule } from './layers.ts';
import { type ChartTheme, chartFrame, choiceMarks } from './theme.ts';

/**
 * Mean angle error of each of the six sector kinds, both choices: filled marks
 * where the open phase's EMF rises through its crossing, open marks where it
 * falls. A gap between the two is a threshold that sits too high or too low.
 *
 * @param ghost an earlier result's means, drawn as grey ticks
 */
export function sectorMeans(
	choices: PerChoice<Pick<ChoiceFigures, 'sectorMeans'>>,
	theme: ChartTheme,
	description: string,
	ghost?: PerChoice<Pick<ChoiceFigures, 'sectorMeans'>>,
): TopLevelSpec {
	const before = ghost && sectorRows(ghost);
	const rows = sectorRows(choices);
	const x = {
		field: 'sector',
		type: 'nominal' as const,
		sort: sectorWords.map(({ phase, rising }) => `${phase} ${rising ? '↑' : '↓'}`),
		axis: {
			title: ['open phase, its EMF falling ↓ (open marks)', 'or rising ↑ (filled marks)'],
			labelAngle: 0,
			labelFontSize: 13,
			ticks: false,
		},
	};
	return {
		...chartFrame(theme, description, 210),
		datasets: { sectors: rows, ...(before && { ghost: before }) },
		data: { name: 'sectors' },
		layer: [
			zeroRule(theme, 'y'),
			...(before
				? choiceNames.map((choice, i) => ({
						data: { name: 'ghost' },
						transform: [{ filter: `datum.choice === '${choice}'` }],
						mark: {
							type: 'tick' as const,
							color: theme.quiet,
							thickness: 2,
							width: 14,
							xOffset: i === 0 ? -7 : 7,
							opacity: 0.85,
						},
						encoding: { x, y: { field: 'mean', type: 'quantitative' as const }, tooltip: { field: 'says' } },
					}))
				: []),
			...choiceNames.map((choice, i) => ({
				transform: [{ filter: `datum.choice === '${choice}'` }],
				mark: {
					type: 'point' as const,
					shape: choiceMarks[choice].shape,
					size: 80,
					strokeWidth: 2,
					stroke: theme.choice[choice].line,
					xOffset: i === 0 ? -7 : 7,
					opacity: 1,
				},
				encoding: {
					x,
					fill: { condition: { test: 'datum.rising', value: theme.choice[choice].line }, value: theme.paper },
					tooltip: { field: 'says' },
					y: {
						field: 'mean',
						type: 'quantitative' as const,
						scale: { padding: 12 },
						axis: {
							title: 'mean error, electrical degrees',
							tickCount: 5,
							minExtent: 48,
							labelExpr: "replace(datum.label, '-', '−') + '°'",
						},
					},
				},
			})),
		],
	} as TopLevelSpec;
}

const sectorRows = (choices: PerChoice<Pick<ChoiceFigures, 'sectorMeans'>>) =>
	choiceNames.flatMap((choice) =>
		sectorWords.map(({ phase, rising }, kind) => ({
			choice,
			sector: `${phase} ${rising ? '↑' : '↓'}`,
			rising,
			mean: choices[choice].sectorMeans[kind] ?? null,
			says: `${choiceWords[choice]}, phase ${phase} ${rising ? 'rising' : 'falling'}: mean ${signedDegrees(choices[choice].sectorMeans[kind] ?? Number.NaN)}`,
		})),
	);
