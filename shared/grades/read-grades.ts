import { parseQuantity } from '../parameters/quantity.ts';
import { type Series, seriesNames } from '../parts/preferred-series.ts';
import { type Grade, makeGrade } from './grade.ts';

const mostGrades = 12;
/** Loosest tolerance that a grade may have. */
const loosest = 0.2;

export type GradesReading = { readonly grades: readonly Grade[] } | { readonly problems: readonly GradeProblem[] };

export interface GradeProblem {
	/** The entry of the list, as written. */
	readonly value: string;
	readonly message: string;
}

/**
 * Grades as one writes them in a list: "5 %, 2 %, 1 %", with a series of its own
 * "1 % E24" or two "1 % E24+E96", an array by absolute and ratio tolerance
 * "array 1 %/0.1 %". Everything that is wrong at once; never throws.
 */
export function readGrades(text: string): GradesReading {
	const problems: GradeProblem[] = [];
	const grades: Grade[] = [];
	const entries = text.split(',').map((entry) => entry.trim().replaceAll(/\s+/g, ' '));
	if (entries.length > mostGrades) {
		return { problems: [{ value: text, message: `has ${entries.length} grades; at most ${mostGrades} are compared` }] };
	}
	for (const entry of entries) {
		const grade = readGrade(entry);
		if ('messages' in grade) problems.push(...grade.messages.map((message) => ({ value: entry, message })));
		else if (grades.some(({ name }) => name === grade.name)) {
			problems.push({ value: entry, message: `is the grade ${grade.name} a second time` });
		} else grades.push(grade);
	}
	return problems.length > 0 ? { problems } : { grades };
}

function readGrade(entry: string): Grade | { readonly messages: readonly string[] } {
	const parts = /^(array )?([^/]*?)(?:\/([^/]*?))?(?: (E\d+(?: ?\+ ?E\d+)*))?$/i.exec(entry);
	if (entry === '') return { messages: ['an entry is empty; write grades such as 5 %, 1 %, array 1 %/0.1 %'] };
	if (!parts) return { messages: ['cannot be read; write 1 %, 1 % E24 or array 1 %/0.1 %'] };
	const [, array, first = '', second, seriesText] = parts;
	const messages: string[] = [];
	const tolerance = (written: string, what: string): number => {
		const quantity = parseQuantity(written.trim(), '1');
		if ('problem' in quantity) messages.push(`${what} ${quantity.problem}`);
		else if (!(quantity.value > 0 && quantity.value <= loosest)) {
			messages.push(`${what} must be above 0 and at most 20 %; write 5 % for ± 5 %`);
		} else return quantity.value;
		return Number.NaN;
	};
	const series = (seriesText?.toUpperCase().split('+') ?? []).map((name) => name.trim());
	for (const name of series) {
		if (!seriesNames.includes(name as Series))
			messages.push(`${name} is no series; known are ${seriesNames.join(', ')}`);
	}
	if (array === undefined && second !== undefined)
		messages.push('has two tolerances; write array before those of an array');
	if (array !== undefined && second === undefined) {
		messages.push('needs two tolerances, absolute and ratio: array 1 %/0.1 %');
	}
	const own = tolerance(first, array === undefined ? 'the tolerance' : 'the absolute tolerance');
	const ratio = second === undefined ? Number.NaN : tolerance(second, 'the ratio tolerance');
	if (array !== undefined && ratio > own) messages.push('the ratio tolerance must not be looser than the absolute one');
	if (messages.length > 0) return { messages };
	return array === undefined ? makeGrade(0, own, series as Series[]) : makeGrade(own, ratio, series as Series[]);
}
