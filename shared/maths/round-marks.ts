import { roundStep } from './round-step.ts';

/**
 * Multiples of a round step (1, 2 or 5 times a power of ten) within a stretch, about `most` of them and never fewer
 * than two: one mark alone tells nothing of the scale. None in a stretch without length.
 */
export function roundMarks(from: number, to: number, most: number): readonly number[] {
	if (!(to > from)) return [];
	const step = roundStep((to - from) / most);
	const marks: number[] = [];
	for (let i = Math.ceil(from / step); i * step <= to; i += 1) marks.push(i * step);
	return marks.length < 2 ? roundMarks(from, to, 2 * most) : marks;
}
