import { formatQuantity } from '../parameters/format-quantity.ts';
import { isRequirement, type NumberRecord, type ParameterRecord } from '../parameters/parameter.ts';
import { parameterById, parameters } from '../parameters/parameters.ts';
import { parseQuantity } from '../parameters/quantity.ts';
import { unknownName } from '../scenario/nearest-name.ts';
import { limits } from '../scenario/read-entry.ts';
import { type Axis, spaced } from './axis.ts';

/** More values than anyone reads in a table; two axes together have their own limit. */
const mostValues = 101;

/** Signs; nothing needs more. */
const longestAxis = 200;

export type AxisReading = { readonly axis: Axis } | { readonly problems: readonly string[] };

/**
 * An axis as written: `operation.speed=600 rpm..3000 rpm/7`, with `/7 log` for
 * logarithmic steps; a single value without `..`. Everything wrong with it is
 * told, in words that follow on it.
 */
export function readAxis(written: string): AxisReading {
	const problems: string[] = [];
	const [, id = '', range = ''] = /^([^=]*)=(.*)$/s.exec(written.slice(0, longestAxis)) ?? [];
	if (written.length > longestAxis || id === '' || range === '') {
		return { problems: ['must be written as PARAMETER=FROM..TO/STEPS, such as operation.speed=600 rpm..3000 rpm/7'] };
	}
	const record = parameterById.get(id.trim());
	if (record === undefined) {
		problems.push(
			`names ${id.trim()}, which ${unknownName(
				id.trim(),
				parameters.filter(canRange).map((one) => one.id),
				parameters.map((one) => one.id),
			)}`,
		);
	} else if (!canRange(record)) {
		problems.push(`names ${id.trim()}, which ${whyNot(record)}`);
	}
	const { ends, steps, spacing } = partsOf(range);
	const count = ends.length === 1 ? 1 : Number(steps);
	if (ends.length > 2) problems.push('has more than two ends: write FROM..TO');
	if (ends.length === 1 && steps !== undefined)
		problems.push('has a number of values but one end only: write FROM..TO/STEPS');
	if (ends.length === 2 && !(count >= 2 && count <= mostValues)) {
		problems.push(`must say how many values to take, 2 to ${mostValues}: FROM..TO/STEPS`);
	}
	if (spacing === undefined) problems.push('has a word after the number of values that is neither lin nor log');
	const numbers = record !== undefined && canRange(record) ? ends.map((end) => endOf(record, end, problems)) : [];
	if (problems.length > 0 || record === undefined || !canRange(record) || spacing === undefined) return { problems };

	const [from = 0, to = from] = numbers;
	if (ends.length === 2 && from === to) return { problems: ['has the same value at both ends; write it once'] };
	if (spacing === 'logarithmic' && !(from > 0 && to > 0)) {
		return { problems: ['has logarithmic steps, which need both ends above 0'] };
	}
	const values = spaced(from, to, count, spacing);
	const unfit = values.filter((value) => !isAllowed(record, value));
	if (unfit.length > 0) {
		const listed = unfit.slice(0, 5).map((value) => formatQuantity(value, record.unit));
		return {
			problems: [
				`comes to ${listed.join(', ')}${unfit.length > 5 ? ' and others' : ''}; ${record.name} must be ${limits({ ...record, word: undefined } as NumberRecord)}`,
			],
		};
	}
	return { axis: { record, spacing, values } };
}

/** Whether drives can be run at several values of it. */
export const canRange = (record: ParameterRecord): record is NumberRecord =>
	record.kind !== 'choice' && record.id !== 'operation.share' && !isRequirement(record);

const whyNot = (record: ParameterRecord): string =>
	record.kind === 'choice'
		? 'has no numeric values to range over'
		: isRequirement(record)
			? 'is what drives are held to and moves none of them: state another requirement in the scenario and run it again'
			: 'weighs the operating points against each other and moves no drive: state it in the scenario';

const isAllowed = ({ kind, allowed, min, max }: NumberRecord, value: number): boolean =>
	value >= min &&
	value <= max &&
	(kind !== 'integer' || Number.isInteger(value)) &&
	(allowed === undefined || allowed.includes(value));

/** What stands before the slash, split at "..", and what stands after it. */
function partsOf(range: string): {
	readonly ends: readonly string[];
	readonly steps: string | undefined;
	readonly spacing: Axis['spacing'] | undefined;
} {
	// a unit may hold a slash of its own: the number of values follows the last one
	const found = /^(.*)\/ *(\d+)(?: +(\S+))?$/s.exec(range.trim());
	const [, body = range, steps, word = 'lin'] = found ?? [];
	return {
		ends: body.split('..').map((end) => end.trim()),
		steps,
		spacing: word === 'lin' ? 'linear' : word === 'log' ? 'logarithmic' : undefined,
	};
}

/** One end's value; NaN where a problem was noted. */
function endOf(record: NumberRecord, written: string, problems: string[]): number {
	const quantity = parseQuantity(written, record.unit);
	if ('problem' in quantity) {
		problems.push(`has the end “${written}”, which ${quantity.problem}`);
		return Number.NaN;
	}
	if (quantity.value < record.min || quantity.value > record.max) {
		problems.push(
			`has the end “${written}”; ${record.name} must be from ${formatQuantity(record.min, record.unit)} to ${formatQuantity(record.max, record.unit)}`,
		);
	}
	return quantity.value;
}
