import { formatQuantity, formatRelative } from '../../../../shared/parameters/format-quantity.ts';
import { parseQuantity } from '../../../../shared/parameters/quantity.ts';
import { nextPreferred } from '../../../../shared/parts/next-preferred.ts';
import { isPreferred, nearestPreferred, type Series, seriesNames } from '../../../../shared/parts/preferred-series.ts';
import { toleranceGrades } from '../../../../shared/parts/tolerance-grades.ts';
import { usualSeries } from '../../../../shared/parts/usual-series.ts';
import type { InputRow } from './rows.ts';

/** What helps to choose a purchasable resistor or capacitor. Values are written as the form takes them. */
export interface PartHelp {
	/** The series that parts of its tolerance are usually bought in. */
	readonly series: Series;
	/** Which series the value is of, in words. */
	readonly standing: string;
	/** The next values of the series. */
	readonly lower: string;
	readonly higher: string;
	/** The one of the two that is nearer, where the value is in no series. */
	readonly nearest: string | null;
	readonly grades: readonly { readonly text: string; readonly isCurrent: boolean }[];
}

/** Grades that each kind of part is commonly sold in: common practice of the trade. */
const commonGrades = { Ω: [1e-3, 0.05], F: [0.01, 0.2] } as const;

/** Null for what is no resistor or capacitor of the sensing network, or has no value to start from. */
export function partHelp({ record, fields }: InputRow): PartHelp | null {
	if (record.kind === 'choice' || record.role !== 'part' || !record.id.startsWith('sensing.')) return null;
	const { unit } = record;
	if (unit !== 'Ω' && unit !== 'F') return null;
	const text = (name: string): string => fields.find(({ field }) => field === name)?.text ?? '';
	const value = parseQuantity(text('value'), unit);
	if ('problem' in value || !(value.value > 0)) return null;
	const stated = parseQuantity(text('mismatch'), '1');
	const tolerance = 'value' in stated ? stated.value : 0;
	const series = usualSeries(tolerance > 0 ? tolerance : 0.01);
	const written = (number: number): string => formatQuantity(number, unit);
	const made = isPreferred(value.value, series) ? series : seriesNames.find((one) => isPreferred(value.value, one));
	const [least, most] = commonGrades[unit];
	return {
		series,
		standing:
			made === undefined ? 'in no series' : made === series ? `${series} value` : `${made} value, not ${series}`,
		lower: written(nextPreferred(value.value, series, -1)),
		nearest: made === undefined ? written(nearestPreferred(value.value, series)) : null,
		higher: written(nextPreferred(value.value, series, 1)),
		grades: toleranceGrades
			.filter((grade) => grade >= least && grade <= most)
			.map((grade) => ({ text: formatRelative(grade), isCurrent: grade === tolerance })),
	};
}
