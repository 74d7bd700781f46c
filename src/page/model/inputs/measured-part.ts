import { formatQuantity } from '../../../../shared/parameters/format-quantity.ts';
import type { Tolerance } from '../../../../shared/parameters/parameter.ts';
import { parseQuantity } from '../../../../shared/parameters/quantity.ts';
import { readMeasured } from '../../../../shared/parts/read-measured.ts';
import { deviate } from '../../../../shared/sampling/deviate.ts';
import { isObject, type Json, type JsonObject } from '../../../../shared/scenario/read-json.ts';
import { ownScale } from '../../../../shared/scenario/read-spread.ts';
import { Moments } from '../../../../shared/statistics/moments.ts';
import { capital } from '../../../../shared/words/capital.ts';
import { count } from '../../../../shared/words/figures.ts';
import { fewMeasured, measuredValues } from '../../../../shared/words/measured.ts';
import { onScale } from '../../../../shared/words/quantity.ts';
import { fieldsOf } from './entry.ts';
import type { InputRow } from './rows.ts';

/** Bytes. */
const largestFile = 2_000_000;

/** A part's entry with measured deviations in place of the assumed distribution, or what is wrong with the file. */
export function measuredEntry(
	row: Pick<InputRow, 'record' | 'fields'>,
	entry: Json | undefined,
	text: string,
): { readonly entry: JsonObject } | { readonly problems: readonly string[] } {
	const { record } = row;
	if (record.kind === 'choice' || record.role !== 'part') {
		return { problems: [`${record.name} is not a part that is built: it has no distribution to measure`] };
	}
	if (text.length > largestFile) return { problems: ['the file is too large: at most 2 MB are read'] };
	const nominal = parseQuantity(row.fields.find(({ field }) => field === 'value')?.text ?? '', record.unit);
	if ('problem' in nominal) return { problems: [`the nominal value ${nominal.problem}`] };
	const reading = readMeasured(text, record);
	if ('problems' in reading) return reading;
	const isRelative = ownScale(record) === 'relative';
	const wrong = reading.values.filter((value) => value < record.min || value > record.max);
	if (wrong.length > 0) {
		const range = `${formatQuantity(record.min, record.unit)} to ${formatQuantity(record.max, record.unit)}`;
		const found = formatQuantity(wrong[0] as number, record.unit);
		return {
			problems: [
				`${wrong.length === 1 ? '1 value lies' : `${count(wrong.length)} values lie`} outside ${range}, the first is ${found}`,
			],
		};
	}
	const { value } = fieldsOf(entry);
	// nine digits: more than any meter has, and short in a file
	const digits = (deviation: number): number => Number(deviation.toPrecision(9));
	const measured = reading.values.map((one) => digits(isRelative ? one / nominal.value - 1 : one - nominal.value));
	return { entry: { ...(value !== undefined && { value }), distribution: 'measured', measured } };
}

export interface MeasuredSummary {
	readonly facts: readonly (readonly [term: string, words: string])[];
	readonly warnings: readonly string[];
	/** Both as shares up to a deviation, rising, in the same unit; `assumed` is empty where nothing was assumed. */
	readonly measured: readonly CumulativeStep[];
	readonly assumed: readonly CumulativeStep[];
	readonly axis: { readonly low: string; readonly middle: string; readonly high: string };
	/** The axis' ends, in the unit of `deviation`. */
	readonly range: readonly [number, number];
	readonly describes: string;
}

export interface CumulativeStep {
	readonly deviation: number;
	readonly share: number;
}

/**
 * The measured values of a row against the distribution that they replace.
 *
 * @param before the tolerance of the scenario as opened
 */
export function measuredSummary(
	row: InputRow,
	entry: Json | undefined,
	before: Tolerance | undefined,
): MeasuredSummary | null {
	const { record } = row;
	const { measured } = isObject(entry) ? entry : {};
	if (record.kind === 'choice' || !Array.isArray(measured)) return null;
	const values = measured.filter((one: Json): one is number => typeof one === 'number').sort((a, b) => a - b);
	const n = values.length;
	const [low, high] = [values[0], values.at(-1)];
	if (low === undefined || high === undefined) return null;
	const scale = ownScale(record);
	const isRelative = scale === 'relative';
	const print = (deviation: number): string => {
		const words = onScale(scale, deviation, record.unit, 3);
		return deviation > 0 ? `+${words}` : words;
	};
	const size = (deviation: number): string => print(Math.abs(deviation)).replace('+', '');
	const assumed = before && before.distribution !== 'measured' ? assumedSteps(before) : [];
	const limit = before ? widest(before, isRelative) : 0;
	const outside = limit > 0 ? values.filter((one) => Math.abs(one) > limit * (1 + 1e-9)).length : 0;
	const moments = new Moments();
	for (const value of values) moments.add(value);
	const centre = moments.mean;
	const { sd } = moments;
	const reach = Math.max(...[low, high, ...assumed.map(({ deviation }) => deviation)].map(Math.abs)) * 1.05 || 1;
	const warnings: string[] = [];
	const fewWords = fewMeasured(n);
	if (fewWords) warnings.push(capital(fewWords));
	if (isRelative && Math.abs(centre) > 0.5) {
		warnings.push(`The mean is ${print(centre)} off nominal: is the file in ${record.unit}?`);
	}
	if (outside > 0) warnings.push(`${count(outside)} of ${count(n)} lie outside the assumed ± ${size(limit)}.`);
	return {
		facts: [
			['Measured', measuredValues(n)],
			['Mean', `${print(centre)} from nominal`],
			['Standard deviation', Number.isNaN(sd) ? '–' : size(sd)],
			['Extremes', `${print(low)} to ${print(high)}`],
			['In place of', before ? assumedWords(before, size) : 'nothing assumed'],
		],
		warnings,
		measured: values.map((deviation, i) => ({ deviation, share: (i + 1) / n })),
		assumed,
		axis: { low: print(-reach), middle: '0', high: print(reach) },
		range: [-reach, reach],
		describes: `Share of parts up to each deviation: ${count(n)} measured, from ${print(low)} to ${print(high)}${
			before ? `, against the assumed ${assumedWords(before, size)}` : ''
		}.`,
	};
}

const widest = ({ lot, mismatch }: Tolerance, isRelative: boolean): number =>
	isRelative ? (1 + lot) * (1 + mismatch) - 1 : lot + mismatch;

const assumedWords = ({ lot, mismatch, distribution }: Tolerance, size: (deviation: number) => string): string =>
	[lot > 0 && `lot ± ${size(lot)}`, mismatch > 0 && `mismatch ± ${size(mismatch)}`, distribution]
		.filter(Boolean)
		.join(', ');

/** The assumed distribution at evenly spaced shares: every lot with every mismatch. */
function assumedSteps(tolerance: Tolerance): readonly CumulativeStep[] {
	const shares = (n: number): number[] => Array.from({ length: n }, (_, i) => (i + 0.5) / n);
	const lots = tolerance.lot > 0 ? shares(40).map((u) => deviate(tolerance, tolerance.lot, u)) : [0];
	const own =
		tolerance.mismatch > 0
			? shares(tolerance.lot > 0 ? 40 : 200).map((u) => deviate(tolerance, tolerance.mismatch, u))
			: [0];
	const all = lots
		.flatMap((lot) => own.map((one) => (tolerance.scale === 'relative' ? lot + one + lot * one : lot + one)))
		.sort((a, b) => a - b);
	return all.map((deviation, i) => ({ deviation, share: (i + 1) / all.length }));
}
