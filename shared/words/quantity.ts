import { formatQuantity, formatRelative } from '../parameters/format-quantity.ts';
import type { Unit } from '../parameters/parameter.ts';

/**
 * A value to be read, not to be read back: rounded to significant digits, with a
 * true minus and not torn from its unit: "−4.738 mV".
 */
export function quantity(value: number, unit: Unit, digits = 4): string {
	return printed(formatQuantity(Number(value.toPrecision(digits)), unit));
}

/** A share as it was stated, in per cent, likewise: "5 %". */
export function relative(value: number, digits = 6): string {
	return printed(formatRelative(Number(value.toPrecision(digits))));
}

const printed = (words: string): string => words.replace('-', '−').replace(' ', '\u00a0');

/** A quantity with a plus before positive values: a deviation. */
export function signedQuantity(value: number, unit: Unit, digits = 4): string {
	return value > 0 ? `+${quantity(value, unit, digits)}` : quantity(value, unit, digits);
}
