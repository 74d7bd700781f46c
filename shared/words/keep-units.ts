import { prefixes, unitSpelling } from '../parameters/unit-spelling.ts';

const escaped = (text: string): string => text.replace(/[/.]/g, '\\$&');
const symbols = Object.values(unitSpelling).flatMap(({ symbols: [symbol], prefixed }) =>
	symbol ? [`${prefixed ? `[${[...prefixes.keys()].join('')}]?` : ''}${escaped(symbol)}`] : [],
);
const beforeUnit = new RegExp(`(?<=\\d) (?=(?:${[...symbols, 'ppm/K', '%'].join('|')})(?![\\p{L}\\d]))`, 'gu');

/** A text with no number torn from its unit at a line's end: the blank between them becomes one that does not break. */
export const keepUnits = (text: string): string => text.replaceAll(beforeUnit, '\u00a0');
