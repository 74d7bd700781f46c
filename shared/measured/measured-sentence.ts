import { choiceNames } from '../drive/drive.ts';
import { capital } from '../words/capital.ts';
import { count, degrees, percent, power } from '../words/figures.ts';
import { choiceWords } from '../words/names.ts';
import { shownBelow } from './compare-intervals.ts';
import type { MeasuredResult } from './measured-result.ts';

/** How the log lies against each choice's prediction; never that the two agree, which no test can show. */
export function measuredSentence({ log, choices, point, provenance }: Omit<MeasuredResult, 'sentence'>): string {
	const drives = log.figures.drives === 1 ? 'one measured drive' : `${count(log.figures.drives)} measured drives`;
	const limit = shownBelow(provenance.level);
	const each = choiceNames.flatMap((choice) => {
		const found = choices[choice];
		if (found === null)
			return [`With ${choiceWords[choice]} every simulated drive lost lock: nothing to compare with.`];
		const { figures, shape, spreads: ofDrives, differs } = found;
		const spreads = `spread within a drive ${degrees(log.figures.spread)} measured, ${degrees(figures.spread)} predicted`;
		// only what shows it is named
		const shown = [
			...(shape.p < limit ? [`by their distribution, largest difference of shares ${percent(shape.d)}`] : []),
			...(ofDrives.p < limit ? ['by how widely each drive spreads'] : []),
		];
		return differs
			? [
					`${capital(choiceWords[choice])}: measured and predicted intervals differ, ${shown.join(', and ')} (${spreads}).`,
				]
			: [
					`${capital(choiceWords[choice])}: no difference is shown (p of both tests above ${power(limit)}; ${spreads}); with so few drives, one of shares below ${percent(shape.chance)} would not be noticed.`,
				];
	});
	return `The sector intervals of ${drives} against those predicted at ${point}. ${each.join(' ')}`;
}
