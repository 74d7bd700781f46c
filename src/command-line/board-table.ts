import { degrees, signedDegrees } from '../../shared/words/figures.ts';
import { list } from '../../shared/words/list.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { quantity } from '../../shared/words/quantity.ts';
import type { BoardFigures, BoardResult } from './board-run.ts';
import { row } from './two-columns.ts';
import { wrapText } from './wrap-text.ts';

/**
 * Boards side by side with both choices, 80 columns.
 *
 * @param unused parameters that were stated and act on no board
 */
export function boardTable(boards: readonly BoardResult[], unused: readonly string[] = []): string {
	const lines = [row('', choiceWords.halfBus, choiceWords.virtualNeutral), ...boards.flatMap(boardLines)];
	if (unused.length > 0) {
		lines.push(
			'',
			wrapText(
				`Caution: ${list(unused)} ${unused.length === 1 ? 'is' : 'are'} stated, and no board is run with ${unused.length === 1 ? 'it' : 'them'}: a board is one run without noise, held to no requirement.`,
			),
		);
	}
	return `${[...lines, '', wrapText('Simulated estimates of boards without noise; measurement on real hardware decides.')].join('\n')}\n`;
}

function boardLines(board: BoardResult): string[] {
	const name = String(board.case);
	const title = /^board\b/i.test(name) ? name : `Board ${name}`;
	if ('failure' in board) return [wrapText(`${title} could not be simulated: ${board.failure}`, { rest: '  ' })];
	const figures = (label: string, words: (figures: BoardFigures) => string): string =>
		row(label, words(board.halfBus), words(board.virtualNeutral));
	return [
		title,
		figures('  mean angle error (late is +)', ({ errors }) =>
			errors.length > 0 ? signedDegrees(meanOf(errors)) : '–',
		),
		figures('  largest, either way', ({ errors }) =>
			errors.length > 0 ? degrees(Math.max(...errors.map(Math.abs))) : '–',
		),
		figures(
			'  missed crossings',
			({ crossings }) => `${crossings.filter((one) => one === null).length} of ${crossings.length}`,
		),
		figures(
			'  mean torque',
			({ meanTorque, torqueNotReached }) => `${torqueNotReached ? 'SHORT: ' : ''}${quantity(meanTorque, 'N·m')}`,
		),
		figures('  lock', ({ lost }) => (lost ? 'LOST' : 'kept')),
	];
}

const meanOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
