import { type ChoiceName, choiceNames } from '../../../../shared/drive/drive.ts';
import { type DriveWindow, type TraceName, traceNames } from '../../../../shared/one-drive/drive-window.ts';
import type { Table } from '../../../../shared/words/csv.ts';

const units: Readonly<Record<TraceName, string>> = {
	sense: 'V',
	threshold: 'V',
	terminalA: 'V',
	terminalB: 'V',
	terminalC: 'V',
	currentA: 'A',
	currentB: 'A',
	currentC: 'A',
	torque: 'N·m',
};

/** The window that was simulated as a table: smallest and largest value of each trace in each column of the picture. */
export function windowTable(window: DriveWindow, picked: ChoiceName): Table {
	const traces = [
		...choiceNames.flatMap((choice) => (['sense', 'threshold'] as const).map((trace) => ({ choice, trace }))),
		...traceNames.slice(2).map((trace) => ({ choice: picked, trace })),
	];
	const step = (window.to - window.from) / window.columns;
	return {
		header: [
			'from (s)',
			'to (s)',
			...traces.flatMap(({ choice, trace }) =>
				['lowest', 'highest'].map((end) => `${choice} ${trace} ${end} (${units[trace]})`),
			),
		],
		rows: Array.from({ length: window.columns }, (_, column) => [
			window.from + column * step,
			window.from + (column + 1) * step,
			...traces.flatMap(({ choice, trace }) => {
				const ranges = window.runs[choice].traces[trace];
				return [ranges[2 * column] as number, ranges[2 * column + 1] as number];
			}),
		]),
	};
}
