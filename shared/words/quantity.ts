import { formatParts, formatRelative, joinParts, type QuantityParts } from '../parameters/format-quantity.ts';
import type { Tolerance, Unit } from '../parameters/parameter.ts';
import { withMinus } from './figures.ts';

/**
 * A value to be read, not to be read back: rounded to significant digits, with a
 * true minus and not torn from its unit: "−4.738 mV".
 */
export const quantity = (value: number, unit: Unit, digits = 4): string =>
	joinParts(quantityParts(value, unit, digits), '\u00a0');

/** The same with number and unit apart, for numbers in a row whose unit is said once: "−4.738" and "mV". */
export function quantityParts(value: number, unit: Unit, digits = 4): QuantityParts {
	const parts = formatParts(Number(value.toPrecision(digits)), unit);
	return { ...parts, number: withMinus(parts.number) };
}

/** A figure beside others of its kind: all its significant digits are shown, "43.90 mN·m" under "10.18 mN·m". */
export const evenQuantity = (value: number, unit: Unit, digits = 4): string =>
	allDigits(quantity(value, unit, digits), digits);

function allDigits(words: string, digits: number): string {
	return words.replace(/[\d.\u202f]+/, (number) => {
		const missing = digits - number.replace(/\D/g, '').replace(/^0+/, '').length;
		if (missing <= 0 || Number.parseFloat(number) === 0) return number;
		return `${number}${number.includes('.') ? '' : '.'}${'0'.repeat(missing)}`;
	});
}

/** A share as it was stated, in per cent, likewise: "5 %". */
export function relative(value: number, digits = 6): string {
	return withMinus(formatRelative(Number(value.toPrecision(digits)))).replace(' ', '\u00a0');
}

/** A deviation or a half-width as its scale has it: in per cent, or with the unit. */
export const onScale = (scale: Tolerance['scale'], value: number, unit: Unit, digits = 6): string =>
	scale === 'relative' ? relative(value, digits) : quantity(value, unit, digits);

/** The same beside others of its kind: "+0.980 %" over "−0.967 %". */
export const evenOnScale = (scale: Tolerance['scale'], value: number, unit: Unit, digits: number): string =>
	allDigits(onScale(scale, value, unit, digits), digits);

/** A quantity with a plus before positive values: a deviation. */
export function signedQuantity(value: number, unit: Unit, digits = 4): string {
	return value > 0 ? `+${quantity(value, unit, digits)}` : quantity(value, unit, digits);
}
