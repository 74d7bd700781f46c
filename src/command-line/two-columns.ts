import { padEnd, padStart } from './wrap-text.ts';

const labelWidth = 30;
const cellWidth = 25;

/** One line of a comparison: a label and a figure for each choice, 80 columns in all. */
export const row = (label: string, halfBus: string, virtualNeutral: string): string =>
	padEnd(label, labelWidth) + padStart(halfBus, cellWidth) + padStart(virtualNeutral, cellWidth);
