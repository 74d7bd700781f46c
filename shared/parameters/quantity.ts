import { ungrouped } from './grouped.ts';
import type { Unit } from './parameter.ts';
import { prefixes, unitSpelling } from './unit-spelling.ts';

export type Quantity = { readonly value: number } | { readonly problem: string };

/** Signs; no quantity needs more, and hostile texts are kept from the patterns below. */
export const longestQuantity = 40;

/**
 * A value in `unit` (SI; degrees, rev/min and °C excepted) from a number, or
 * from a string with unit and SI prefix ("22 kΩ", "75 µs", "5 %"), with the
 * prefix alone ("22k", "470p") or as a resistor or capacitor is marked
 * ("4k7", "R47", "4n7": IEC 60062). Digits may be grouped with
 * spaces ("12 000 rpm"). The result is the double nearest to the decimal that was written: "470p" is exactly 470e-12.
 *
 * @returns the value, or what is wrong in words that follow on "… "
 */
export function parseQuantity(written: unknown, unit: Unit): Quantity {
	if (typeof written === 'number') {
		return Number.isFinite(written) ? { value: written } : { problem: 'is not a finite number' };
	}
	if (typeof written !== 'string') return { problem: `is neither a number nor a text; ${advice(unit)}` };
	if (written.length > longestQuantity) return { problem: `is too long for a value; ${advice(unit)}` };
	const text = plainSigns(written);
	if (text === '') return { problem: `is empty; ${advice(unit)}` };
	if (/\d,\d/.test(text)) {
		return { problem: 'has a comma; write the decimal point as "." and leave out thousands separators' };
	}
	const value = marked(text, unit) ?? suffixed(text, unit);
	if (value === undefined) {
		const other = (Object.keys(unitSpelling) as Unit[]).find((u) => u !== '1' && suffixed(text, u) !== undefined);
		if (other) return { problem: `is in ${other}, which does not fit here; ${advice(unit)}` };
		return { problem: `cannot be read; ${advice(unit)}` };
	}
	return Number.isFinite(value) ? { value } : { problem: 'is too large to be a number' };
}

const advice = (unit: Unit): string =>
	unit === '1'
		? `write ${unitSpelling[unit].example}`
		: `write a value in ${unit}, such as ${unitSpelling[unit].example}`;

/** One sign for each meaning: micro, ohm, minus, product and space have several code points. */
const plainSigns = (text: string): string =>
	ungrouped(text)
		.replace(/\s+/g, ' ')
		.trim()
		.replace(/\u03bc/g, 'µ') // Greek mu → micro sign
		.replace(/\u2126/g, 'Ω') // ohm sign → Greek omega
		.replace(/\u2212/g, '-') // minus sign
		.replace(/[\u22c5*]/g, '·') // dot operator, asterisk → middle dot
		.replace(/(?<![a-z])u(?=$|[A-Za-z0-9])/, 'µ');

/** Number with an ending: "22 kΩ", "1.5e3 Ω", "22k", "22". */
function suffixed(text: string, unit: Unit): number | undefined {
	const parts = /^([+-]?(?:\d+\.?\d*|\.\d+))(?:[eE]([+-]?\d{1,3}))? ?(.*)$/.exec(text);
	if (!parts) return undefined;
	const [, digits, exponent = '0', ending = ''] = parts;
	const power = endings.get(unit)?.get(ending);
	return power === undefined ? undefined : Number(`${digits}e${Number(exponent) + power}`);
}

/** IEC 60062 value mark: a letter in place of the decimal point ("4k7", "R47", "p33"). */
function marked(text: string, unit: Unit): number | undefined {
	const parts = /^(\d*)([A-Za-zµ])(\d+)$/.exec(text);
	if (!parts) return undefined;
	const [, whole, letter = '', decimals] = parts;
	const power = unitSpelling[unit].marks?.[letter];
	return power === undefined ? undefined : Number(`${whole || '0'}.${decimals}e${power}`);
}

/** For each unit, every ending that may follow the digits and its power of ten. */
const endings: ReadonlyMap<Unit, ReadonlyMap<string, number>> = new Map(
	(Object.keys(unitSpelling) as Unit[]).map((unit) => {
		const { symbols, prefixed, endings: further = {} } = unitSpelling[unit];
		const powers = new Map<string, number>([['', 0]]);
		for (const [prefix, power] of prefixed ? prefixes : [['', 0] as const]) {
			for (const symbol of ['', ...symbols]) powers.set(prefix + symbol, power);
		}
		for (const [ending, power] of Object.entries(further)) powers.set(ending, power);
		return [unit, powers];
	}),
);
