import type { PerChoice } from '../drive/drive.ts';
import { defaultValues } from '../scenario/default-values.ts';
import { readBoards } from '../scenario/read-boards.ts';
import { isObject, readJson } from '../scenario/read-json.ts';
import type { Problem } from '../scenario/scenario.ts';
import type { BoardValues } from './drive-request.ts';

const compensationId = 'detection.compensation';

/** A drive as a file of the `board` command holds it, to be edited into the values measured on a board. */
export function boardText({ values, deviations }: BoardValues, name: string): string {
	const usual = defaultValues();
	const parameters = Object.fromEntries(
		Object.entries(values).filter(([id, value]) => value !== usual[id] && id !== compensationId),
	);
	// lists of numbers on one line each, as they are read
	const lines = (members: Readonly<Record<string, unknown>>): string =>
		Object.entries(members)
			.map(([id, value]) => `\t\t\t"${id}": ${JSON.stringify(value).replaceAll(',', ', ')}`)
			.join(',\n');
	return `{"cases": [{
\t\t"case": ${JSON.stringify(name)},
\t\t"parameters": {
${lines(parameters)}
\t\t},
\t\t"deviations": {
${lines(deviations)}
\t\t}
}]}
`;
}

/**
 * The one board of a text in that form, or everything that is wrong with it.
 *
 * @param compensation s, for each choice, where the text states none
 */
export function readBoardText(
	text: string,
	compensation: PerChoice<number>,
): { readonly board: BoardValues } | { readonly problems: readonly Problem[] } {
	const reading = readBoards(text);
	if ('problems' in reading) return reading;
	const [board, ...more] = reading.boards;
	if (!board || more.length > 0) {
		const value = String(reading.boards.length);
		return { problems: [{ path: 'cases', value, message: 'must hold one board here, the one that is looked at' }] };
	}
	const stated = board.values[compensationId] as number;
	const isStated = statesCompensation(text);
	return {
		board: {
			values: board.values,
			deviations: board.deviations,
			compensation: isStated ? { halfBus: stated, virtualNeutral: stated } : compensation,
		},
	};
}

function statesCompensation(text: string): boolean {
	const { value } = readJson(text);
	const [first] = isObject(value) && Array.isArray(value.cases) ? value.cases : [];
	return isObject(first) && isObject(first.parameters) && first.parameters[compensationId] !== undefined;
}
