import { type ChoiceName, choiceNames } from '../../../../shared/drive/drive.ts';
import type { DriveWindow, TraceName } from '../../../../shared/one-drive/drive-window.ts';
import { span, withMinus } from '../../../../shared/words/figures.ts';
import { choiceWords } from '../../../../shared/words/names.ts';
import { milliseconds, sectorName } from './drive-words.ts';

export interface ReadoutRow {
	readonly name: string;
	readonly value: string;
}

/** What stands under the cursor, in words. @param picked the choice whose terminals, currents and torque are meant */
export function readout(window: DriveWindow, time: number, picked: ChoiceName): readonly ReadoutRow[] {
	const share = (time - window.from) / (window.to - window.from);
	// the window's last instant is its last column's
	const column = share === 1 ? window.columns - 1 : Math.floor(share * window.columns);
	const value = (choice: ChoiceName, trace: TraceName, unit: string): string => {
		const ranges = window.runs[choice].traces[trace];
		const low = ranges[2 * column];
		const high = ranges[2 * column + 1];
		if (low === undefined || high === undefined || Number.isNaN(low)) return '–';
		const size = Math.max(Math.abs(high), Math.abs(low));
		// both ends as finely, to four digits of the larger; what is left of a current that has stopped is rounding
		const decimals = size < 1e-9 ? 0 : Math.max(0, 3 - Math.floor(Math.log10(size)));
		const digits = (one: number): string =>
			Math.abs(one) < 1e-9 || Number(one.toFixed(decimals)) === 0 ? '0' : withMinus(one.toFixed(decimals));
		const [from, to] = [digits(low), digits(high)];
		const words = high - low > 2e-3 * size && from !== to ? span(from, to) : digits((low + high) / 2);
		// no range is torn at a line's end
		return `${words.replaceAll(' ', '\u00a0')}\u00a0${unit}`;
	};
	const angle = (30 + window.degreesPerSecond * time) % 360;
	const where = window.runs[picked].sectors.find(({ begin, commutation }) => begin <= time && time <= commutation);
	return [
		{ name: 'time', value: milliseconds(time) },
		{ name: 'rotor', value: `${angle.toFixed(1)}°${where ? `, ${sectorName(where.sector)}` : ''}` },
		...choiceNames.map((choice) => ({
			name: choiceWords[choice],
			value: `sense ${value(choice, 'sense', 'V')}, threshold ${value(choice, 'threshold', 'V')}`,
		})),
		{
			name: 'terminals a, b, c',
			value: (['terminalA', 'terminalB', 'terminalC'] as const).map((trace) => value(picked, trace, 'V')).join(', '),
		},
		{
			name: 'currents a, b, c',
			value: (['currentA', 'currentB', 'currentC'] as const).map((trace) => value(picked, trace, 'A')).join(', '),
		},
		{ name: 'torque', value: value(picked, 'torque', 'N·m') },
	];
}
