import { unitColumns } from '../../shared/results/unit-table.ts';
import type { HelpTopic } from './command.ts';
import { wrapText } from './wrap-text.ts';

/** Every column of the table that --csv writes. */
export const columnsTopic: HelpTopic = {
	sentence: 'Every column of --csv, with unit and meaning.',
	text: () =>
		`${[
			wrapText(
				'A row for each drive and operating point, fields parted by commas, the first row with the names. Infinite figures are written Infinity; a figure that does not exist is empty.',
			),
			'',
			...unitColumns.row.map(entry),
			'',
			wrapText('Of each choice, halfBus. or virtualNeutral. before the name:'),
			'',
			...unitColumns.choice.map(entry),
		].join('\n')}\n`,
};

function entry({ name, unit, meaning }: (typeof unitColumns.row)[number]): string {
	const of = unit === '' || unit === '1' ? '' : ` [${unit}]`;
	return wrapText(`${name}${of}  ${meaning}`, { first: '', rest: '    ' });
}
