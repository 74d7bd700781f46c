import type { Problem } from '../../shared/scenario/scenario.ts';
import { wrapText } from './wrap-text.ts';

/** Everything that is wrong with an input, one entry each. */
export function problemList(problems: readonly Problem[]): string {
	const head =
		problems.length === 1
			? 'There is a problem with the input:'
			: `There are ${problems.length} problems with the input:`;
	const entries = problems.map(({ path, value, message }) => {
		const found = value === '' ? '' : ` ${value}`;
		return wrapText(`${path}${found} ${message}`, { first: '  ', rest: '      ' });
	});
	return `${[head, ...entries].join('\n')}\n`;
}
