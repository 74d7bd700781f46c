import { grouped } from './grouped.ts';
import type { Unit } from './parameter.ts';
import { prefixes, unitSpelling } from './unit-spelling.ts';

/**
 * Engineering notation: `formatQuantity(22e3, 'Ω')` is "22 kΩ"; long whole parts are grouped, "12 000 rpm". All digits are
 * kept, so that `parseQuantity` gives back the same number; round first where
 * fewer are wanted. A plain number (unit '1') comes without ending.
 */
export const formatQuantity = (value: number, unit: Unit): string => joinParts(formatParts(value, unit));

/** What a quantity is written as: "22" and "kΩ"; the unit is '' where none is written. */
export interface QuantityParts {
	readonly number: string;
	readonly unit: string;
}

/** The number that `formatQuantity` writes and the unit, with its prefix, that it writes behind. */
export function formatParts(value: number, unit: Unit): QuantityParts {
	if (!Number.isFinite(value)) return { number: String(value), unit: '' };
	if (unit === '1/K') return { number: shifted(value, 6), unit: 'ppm/K' };
	const [symbol = ''] = unitSpelling[unit].symbols;
	if (value === 0 || !unitSpelling[unit].prefixed) return { number: shifted(value, 0), unit: symbol };
	const power = Math.floor(exponentOf(value) / 3) * 3;
	for (const [prefix, prefixPower] of prefixes) {
		if (prefixPower === power) return { number: shifted(value, -power), unit: prefix + symbol };
	}
	return { number: String(value), unit: symbol };
}

/** Number and unit with what stands between them; degrees stand close. */
export const joinParts = ({ number, unit }: QuantityParts, blank = ' '): string =>
	unit === '' || unit === '°' ? number + unit : number + blank + unit;

/** A share of one as a percentage: `formatRelative(0.05)` is "5 %". */
export function formatRelative(value: number): string {
	return Number.isFinite(value) ? `${shifted(value, 2)} %` : String(value);
}

const exponentOf = (value: number): number => Number(value.toExponential().split('e')[1]);

/** Shortest decimal of value · 10^places, its point moved in the text and not by arithmetic, which would round. */
function shifted(value: number, places: number): string {
	if (value === 0) return '0';
	const [mantissa = '', exponent] = value.toExponential().split('e');
	const sign = mantissa.startsWith('-') ? '-' : '';
	const digits = mantissa.replace(/[-.]/g, '');
	const point = Number(exponent) + 1 + places;
	if (point > 21 || point < -6) return `${mantissa}e${point - 1}`;
	if (point <= 0) return `${sign}0.${'0'.repeat(-point)}${digits}`;
	if (point >= digits.length) return grouped(sign + digits.padEnd(point, '0'));
	return grouped(`${sign}${digits.slice(0, point)}.${digits.slice(point)}`);
}
