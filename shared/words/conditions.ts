import type { ConditionRange, NumberRecord } from '../parameters/parameter.ts';
import { parameter } from '../parameters/parameters.ts';
import type { PointResult } from '../study/result.ts';
import { onScale, quantity } from './quantity.ts';

/** What an operating point is known by. */
const headline = ['operation.speed', 'operation.torque', 'supply.voltage'] as const;

/** An operating point's conditions in words: the three it is known by, and all; with the ranges that they are swept through where these are given. */
export function conditionWords(
	{ conditions }: Pick<PointResult, 'conditions'>,
	ranges: Readonly<Record<string, ConditionRange>> = {},
) {
	const all = Object.entries(conditions).map(([id, value]) => {
		const record = parameter(id);
		return {
			id,
			name: record.name,
			value:
				record.kind === 'choice'
					? String(value)
					: `${quantity(value, record.unit, 12)}${rangeWords(record, ranges[id])}`,
		};
	});
	const brief = headline.flatMap((id) => all.find((condition) => condition.id === id)?.value ?? []);
	return { all, brief };
}

/** What follows the nominal value of a condition that is swept through a range: " ± 2 %"; nothing where it is exact. */
export const rangeWords = ({ unit }: Pick<NumberRecord, 'unit'>, range: ConditionRange | undefined): string =>
	range === undefined || range.halfWidth === 0 ? '' : ` ±\u00a0${onScale(range.scale, range.halfWidth, unit)}`;
