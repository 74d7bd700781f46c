/**
 * How figures are set in print: true minus, thousands set apart by a narrow space, decimals by
 * size, powers of ten with raised digits. Independent of the reader's locale,
 * so that page, report and terminal show the same digits.
 */

const minus = '−';
/** Narrow and unbreakable. */
const thinSpace = '\u202f';
/** Unbreakable, so that no figure is torn from its unit at a line's end. */
const space = '\u00a0';
const raisedDigits = '⁰¹²³⁴⁵⁶⁷⁸⁹';

const withMinus = (text: string): string => text.replace('-', minus);
/** "-0.00" is a zero. */
const fixed = (value: number, decimals: number): string => {
	const text = value.toFixed(decimals);
	return Number(text) === 0 ? text.replace('-', '') : withMinus(text);
};

/** 12840 → "12 840", four digits and up grouped. */
export function count(value: number): string {
	return withMinus(String(Math.round(value))).replace(/\B(?=(\d{3})+$)/g, thinSpace);
}

/** Electrical degrees to 0.01° below 10°, 0.1° from there: "−1.24°", "31.6°". */
export function degrees(value: number): string {
	return `${fixed(value, Math.abs(value) < 9.995 ? 2 : 1)}°`;
}

/** As `degrees`, with a plus before positive values: a lateness or a change. */
export function signedDegrees(value: number): string {
	const text = degrees(value);
	return value > 0 && Number.parseFloat(text) !== 0 ? `+${text}` : text;
}

/** A share as per cent: one decimal below 99.5 % and at least one significant digit: "0.03 %", "12.4 %". */
export function percent(share: number): string {
	const hundred = share * 100;
	if (hundred === 0 || hundred === 100) return `${hundred}${space}%`;
	if (Math.abs(hundred) >= 0.095) return `${fixed(hundred, 1)}${space}%`;
	return Math.abs(hundred) >= 0.00095
		? `${withMinus(String(Number(hundred.toPrecision(1))))}${space}%`
		: `${power(hundred)}${space}%`;
}

/** Two significant digits with a power of ten: "3.2 × 10⁻⁴"; from 0.01 to 100 plainly: "0.014". */
export function power(value: number): string {
	if (value === 0) return '0';
	const [mantissa = '', exponent = '0'] = value.toExponential(1).split('e');
	const ten = Number(exponent);
	if (ten >= -2 && ten <= 1) return withMinus(String(Number(value.toPrecision(2))));
	return `${withMinus(mantissa)}${space}×${space}10${raised(ten)}`;
}

/** An integer in raised digits: −4 → "⁻⁴". */
export function raised(integer: number): string {
	const digits = [...String(Math.abs(integer))].map((digit) => raisedDigits[Number(digit)]).join('');
	return (integer < 0 ? '⁻' : '') + digits;
}

/** Events per hour: whole and grouped from 100, two digits below. */
export function perHour(value: number): string {
	return value >= 100 ? count(Number(value.toPrecision(2))) : power(value);
}

/** "low … high" of an interval already in words. */
export function span(low: string, high: string): string {
	return `${low} … ${high}`;
}
