import { grouped } from '../parameters/grouped.ts';

/**
 * How figures are set in print: true minus, five digits and more in groups of three, decimals by
 * size, powers of ten with raised digits. Independent of the reader's locale,
 * so that page, report and terminal show the same digits.
 */

const minus = '−';
/** Unbreakable, so that no figure is torn from its unit at a line's end. */
const space = '\u00a0';
const raisedDigits = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** Where there is no figure, as of no sectors at all. */
const none = '–';

/** Digits with a true minus: "-1.5" → "−1.5". */
export const withMinus = (text: string): string => text.replace('-', minus);
/** "-0.00" is a zero. */
const fixed = (value: number, decimals: number): string => {
	const text = value.toFixed(decimals);
	return Number(text) === 0 ? text.replace('-', '') : withMinus(text);
};

/** 12840 → "12 840", 1000 as it is. */
export function count(value: number): string {
	if (Number.isNaN(value)) return none;
	return grouped(withMinus(String(Math.round(value))));
}

/** "1 drive", "12 840 drives". */
export const drives = (units: number): string => `${count(units)} ${units === 1 ? 'drive' : 'drives'}`;

/** Electrical degrees to 0.01° below 10°, 0.1° from there: "−1.24°", "31.6°". */
export function degrees(value: number): string {
	if (Number.isNaN(value)) return none;
	return `${fixed(value, Math.abs(value) < 9.995 ? 2 : 1)}°`;
}

/** As `degrees`, with a plus before positive values: a lateness or a change. */
export function signedDegrees(value: number): string {
	const text = degrees(value);
	return value > 0 && Number.parseFloat(text) !== 0 ? `+${text}` : text;
}

/**
 * A share as per cent: one decimal, and near 0 or 1 as many as show one digit of what
 * it has or lacks: "92.8 %", "99.1 %", "99.995 %", "0.03 %". `down` and `up` round a
 * limit so that it claims no more than was shown.
 */
export function percent(share: number, rounding: 'near' | 'down' | 'up' = 'near'): string {
	if (!Number.isFinite(share)) return 'unknown';
	const hundred = share * 100;
	if (hundred === 0 || hundred === 100) return `${hundred}${space}%`;
	const small = Math.abs(hundred) < 99 || hundred > 100 ? Math.abs(hundred) : 100 - hundred;
	if (rounding === 'near' && Math.abs(hundred) < 0.00095) return `${power(hundred)}${space}%`;
	let decimals = 1;
	let unit = 10;
	while (small * unit < 0.95 && decimals < 9) {
		decimals += 1;
		unit *= 10;
	}
	if (rounding === 'near') return `${fixed(hundred, decimals)}${space}%`;
	// 95.1 · 10 must not be 950.9999…
	const slack = 1e-12 * hundred * unit;
	const whole = rounding === 'down' ? Math.floor(hundred * unit + slack) : Math.ceil(hundred * unit - slack);
	return whole === 100 * unit ? `100${space}%` : `${fixed(whole / unit, decimals)}${space}%`;
}

/** Beyond these a figure says nothing: 10⁻¹⁸ is Gaussian noise 8.8 standard deviations out, farther than any is known to be Gaussian. */
export const leastFigure = 1e-18;
const mostFigure = 1e18;

/** Two significant digits with a power of ten: "3.2 × 10⁻⁴"; from 0.01 to 100 plainly: "0.014"; below 10⁻¹⁸ no more than that. */
export function power(value: number): string {
	if (Number.isNaN(value)) return none;
	if (value === 0) return '0';
	if (Math.abs(value) < leastFigure) return `<${space}10${raised(-18)}`;
	if (Math.abs(value) > mostFigure) return `>${space}10${raised(18)}`;
	const [mantissa = '', exponent = '0'] = value.toExponential(1).split('e');
	const ten = Number(exponent);
	if (ten >= -2 && ten <= 1) return withMinus(String(Number(value.toPrecision(2))));
	return `${withMinus(mantissa)}${space}×${space}10${raised(ten)}`;
}

/** The p of a test: "p = 0.031", unbroken, "p below 1 in 10 000". */
export const pWords = (p: number): string => (p < 1e-4 ? `p below 1 in ${count(10_000)}` : `p\u00a0=\u00a0${power(p)}`);

/** A computed chance, which is never nothing: 0 is one too small for the computer. */
export function chance(value: number): string {
	return power(value === 0 ? Number.MIN_VALUE : value);
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

/** Events per hour as computed from chances. */
export function chancePerHour(value: number): string {
	return value >= 100 ? perHour(value) : chance(value);
}

/** "low … high" of an interval already in words; once where both are the same word. */
export function span(low: string, high: string): string {
	return low === high && !/\d/.test(low) ? low : `${low} … ${high}`;
}

/** A number of drives that is enough, to two digits: rounded up, since fewer would not be. */
export function enough(drives: number): string {
	const whole = Math.ceil(drives);
	const step = Number(`1e${Math.max(0, String(whole).length - 2)}`);
	return count(Math.ceil(whole / step) * step);
}
