import type { Unit } from './parameter.ts';

/** SI prefixes and their powers of ten. */
export const prefixes: ReadonlyMap<string, number> = new Map([
	['T', 12],
	['G', 9],
	['M', 6],
	['k', 3],
	['', 0],
	['m', -3],
	['µ', -6],
	['n', -9],
	['p', -12],
	['f', -15],
]);

export interface UnitSpelling {
	/** Ways to write the unit, the printed one first. */
	readonly symbols: readonly string[];
	/** Whether SI prefixes go with it; then a prefix may also stand alone ("22k"). */
	readonly prefixed: boolean;
	/** Further endings and their powers of ten. */
	readonly endings?: Readonly<Record<string, number>>;
	/** Letters that may stand in place of the decimal point, as in "4k7" (IEC 60062), and their powers of ten. */
	readonly marks?: Readonly<Record<string, number>>;
	/** A value as one would write it, for messages. */
	readonly example: string;
}

/** How each unit is written. `u` for `µ` and lookalike signs are taken care of by the reader. */
export const unitSpelling: Readonly<Record<Unit, UnitSpelling>> = {
	V: { symbols: ['V'], prefixed: true, example: '24 V' },
	A: { symbols: ['A'], prefixed: true, example: '1.5 A' },
	Ω: {
		symbols: ['Ω', 'ohm', 'Ohm', 'R'],
		prefixed: true,
		endings: { K: 3, KΩ: 3, Kohm: 3 },
		marks: { R: 0, k: 3, K: 3, M: 6, G: 9 },
		example: '4k7 or 22 kΩ',
	},
	H: { symbols: ['H'], prefixed: true, example: '350 µH' },
	F: { symbols: ['F'], prefixed: true, marks: { p: -12, n: -9, µ: -6, m: -3, F: 0 }, example: '470p or 4.7 nF' },
	s: { symbols: ['s'], prefixed: true, example: '75 µs' },
	Hz: { symbols: ['Hz'], prefixed: true, example: '20 kHz' },
	'°': { symbols: ['°', 'deg'], prefixed: false, example: '10°' },
	rpm: { symbols: ['rpm', 'RPM', 'rev/min', '1/min'], prefixed: false, example: '2000 rpm' },
	N·m: { symbols: ['N·m', 'Nm', 'N m'], prefixed: true, example: '9 mN·m' },
	'V·s/rad': { symbols: ['V·s/rad', 'Vs/rad', 'V s/rad'], prefixed: true, example: '30 mV·s/rad' },
	'°C': { symbols: ['°C', 'degC'], prefixed: false, example: '25 °C' },
	'1/K': {
		symbols: ['1/K', '/K'],
		prefixed: false,
		endings: { 'ppm/K': -6, 'ppm/°C': -6, '%/K': -2 },
		example: '100 ppm/K',
	},
	'1': { symbols: [], prefixed: false, endings: { '': 0, '%': -2, ppm: -6 }, example: '0.05 or 5 %' },
};
