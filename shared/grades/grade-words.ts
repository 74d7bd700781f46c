import type { Verdict } from '../statistics/verdict.ts';
import { count, degrees } from '../words/figures.ts';
import { list } from '../words/list.ts';
import { quantity, relative } from '../words/quantity.ts';
import type { NominalShift } from './apply-grade.ts';
import { drivesApart } from './methods.ts';
import type { GradesResult } from './result.ts';

/** What the figures of a comparison of grades are called in every table. */

/** A unit-level error; a drive that lost lock ranks worse than any number. */
export const errorWords = (error: number): string => (error === Number.POSITIVE_INFINITY ? 'lost' : degrees(error));

/** A grade is judged only up to the first that does not hold; the figures of the others are shown all the same. */
export const judgedWords = (verdict: Verdict | null, isPartial: boolean): string =>
	verdict === null ? (isPartial ? '' : 'not judged') : verdict.decision;

/** How many of the mixes that were looked at held: "3 of 27 mixes were shown to hold in the search". */
export const heldWords = (held: number, searched: number): string =>
	`${count(held)} of ${count(searched)} ${searched === 1 ? 'mix' : 'mixes'} ${held === 1 || searched === 1 ? 'was' : 'were'} shown to hold in the search`;

/** The resistors whose purchasable value is not the designed one: "star resistor 66.5 kΩ → 68 kΩ (+2.3 %)". */
export function nominalWords(nominals: readonly NominalShift[]): string {
	const moved = nominals.filter(({ designed, purchasable }) => designed !== purchasable);
	const words = moved.map(
		({ name, designed, purchasable, shift }) =>
			`${name} ${quantity(designed, 'Ω', 6)} → ${quantity(purchasable, 'Ω', 6)} (${shift > 0 ? '+' : ''}${relative(shift, 2)})`,
	);
	return moved.length === 0 ? 'all as designed' : words.join('; ');
}

/** How many drives nominal values and tolerances alone are shown with; '' where as many as all else. */
export const apartWords = ({ grades }: Pick<GradesResult, 'grades'>): string =>
	grades.some(({ cases: { nominals, tolerance, both } }) =>
		[nominals, tolerance].some(({ units }) => units.asked < both.units.asked),
	)
		? `Nominal values alone and tolerance alone: ${count(drivesApart)} drives at most, but for the grade whose shortfall is told.`
		: '';

/** Which grades' own runs ended early: "Ended early: 2 % and 5 % after 100 drives; …". '' where none did. */
export function earlyWords({ grades, provenance }: Pick<GradesResult, 'grades' | 'provenance'>): string {
	const early = new Map<number, string[]>();
	for (const { grade, cases } of provenance.partial ? [] : grades) {
		const { asked } = cases.both.units;
		if (asked < provenance.unitsPerRun) early.set(asked, [...(early.get(asked) ?? []), grade.name]);
	}
	const parts = [...early].map(([units, names]) => `${list(names)} after ${count(units)} drives`);
	return parts.length === 0
		? ''
		: `Ended early: ${parts.join(', ')}; no further drive could change which grade is enough.`;
}
