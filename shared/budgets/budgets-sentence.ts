import { type ChoiceName, choiceNames, type PerChoice } from '../drive/drive.ts';
import { count, degrees, signedDegrees } from '../words/figures.ts';
import { choiceWords, sectorWords } from '../words/names.ts';
import type { ChoiceBudgets } from './budgets-result.ts';

/** What the three budgets say of the sector kind that each choice's extreme value moves furthest. */
export function budgetsSentence(point: string, choices: PerChoice<ChoiceBudgets>): string {
	return choiceNames.map((choice) => choiceSentence(point, choice, choices[choice])).join(' ');
}

function choiceSentence(
	point: string,
	choice: ChoiceName,
	{ worstKind, kinds, drawn, without }: ChoiceBudgets,
): string {
	const lead = `${choice === 'halfBus' ? 'Half-bus' : 'Virtual neutral'} at ${point}`;
	const worst = worstKind === null ? null : kinds[worstKind];
	if (worstKind === null || !worst) {
		const first = without[0];
		if (first === undefined) return `${lead}: cut short before a budget could be made.`;
		return first === 'the nominal drive'
			? `${lead}: the nominal drive finds no crossings, so there is nothing to budget with ${choiceWords[choice]}.`
			: `${lead}: with ${first} at a limit lock is lost or no crossing found, so no budget can be made.`;
	}
	const { extremeValue, rootSumSquare, monteCarlo } = worst;
	const board = (change: number | null): string => (change === null ? 'loss of its crossings' : signedDegrees(change));
	const interval = monteCarlo?.interval
		? `, and 95 % of ${count(drawn)} drawn drives lie within ${signedDegrees(monteCarlo.interval[0])} and ${signedDegrees(monteCarlo.interval[1])}`
		: '';
	return `${lead}: with everything at its worse limit the mean angle error moves furthest in the sectors of ${sectorName(worstKind)}, by ${board(extremeValue.low)} to ${board(extremeValue.high)}; for these the root-sum-square says ±${degrees(rootSumSquare)}${interval}.`;
}

/** "phase c falling" */
export const sectorName = (kind: number): string => {
	const { phase = '', rising = false } = sectorWords[kind] ?? {};
	return `phase\u00a0${phase} ${rising ? 'rising' : 'falling'}`;
};
