import { type ChoiceName, choiceNames, type PerChoice } from '../drive/drive.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { applyGrade } from './apply-grade.ts';
import type { Grade } from './grade.ts';
import { type GroupName, groupsOfChoice, resistorCount } from './resistor-groups.ts';

/** A grade for each group of resistors on a board with one sensing choice. */
export interface Mix {
	readonly grades: readonly { readonly group: GroupName; readonly grade: Grade }[];
	/** Of all these resistors together. */
	readonly price: number;
	/** Which of `mixScenarios` shows it. */
	readonly place: number;
}

/**
 * Scenarios that show every mix, both choices at once: place i · n + j has the
 * phase dividers in grade i and either threshold's resistors in grade j. No
 * threshold acts on the other choice, so that n² runs serve where n³ mixes are.
 */
export function mixScenarios(scenario: Scenario, grades: readonly Grade[]): readonly Scenario[] {
	return grades.flatMap((divider) =>
		grades.map((threshold) =>
			choiceNames
				.flatMap((choice) => thresholdGroups(choice))
				.reduce((changed, group) => applyGrade(changed, group, threshold), applyGrade(scenario, 'divider', divider)),
		),
	);
}

/** All mixes for each choice, cheapest first; of equally dear ones the tighter first. Every grade must have its price. */
export function mixes(grades: readonly Grade[]): PerChoice<readonly Mix[]> {
	const ofChoice = (choice: ChoiceName): readonly Mix[] =>
		grades
			.flatMap((divider, i) =>
				grades.map((threshold, j): Mix => {
					const chosen = groupsOfChoice[choice].map((group) => ({
						group,
						grade: group === 'divider' ? divider : threshold,
					}));
					const sum = chosen.reduce((total, { group, grade }) => total + groupPrice(group, choice, grade), 0);
					return { grades: chosen, price: roundedPrice(sum), place: i * grades.length + j };
				}),
			)
			.sort((a, b) => a.price - b.price || looseness(a) - looseness(b) || a.place - b.place);
	return { halfBus: ofChoice('halfBus'), virtualNeutral: ofChoice('virtualNeutral') };
}

/** To 10⁻⁹, which takes off what binary fractions add, so that decimals added up do not make equals unequal. */
export const roundedPrice = (price: number): number => Math.round(price * 1e9) / 1e9;

const thresholdGroups = (choice: ChoiceName): readonly GroupName[] =>
	groupsOfChoice[choice].filter((group) => group !== 'divider');

const groupPrice = (group: GroupName, choice: ChoiceName, { price }: Grade): number => {
	if (price === null) throw new RangeError('a mix needs the price of every grade');
	return price * resistorCount(group, choice);
};

const looseness = ({ grades }: Mix): number => grades.reduce((sum, { grade }) => sum + grade.mismatch + grade.lot, 0);
