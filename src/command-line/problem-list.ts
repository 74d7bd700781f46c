import type { Problem } from '../../shared/scenario/scenario.ts';
import { wrapText } from './wrap-text.ts';

/** Everything that is wrong with an input, one entry each: where and what was found, below it what it must be. */
export function problemList(problems: readonly Problem[]): string {
	const head =
		problems.length === 1
			? 'There is a problem with the input:'
			: `There are ${problems.length} problems with the input:`;
	const entries = problems.map(({ path, value, message }) => {
		const found = value === '' ? path : `${path}: ${value}`;
		return [
			wrapText(found, { first: '  ', rest: '      ' }),
			wrapText(message, { first: '      ', rest: '      ' }),
		].join('\n');
	});
	return `${[head, ...entries].join('\n')}\n`;
}
