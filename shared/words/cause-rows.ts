import { causeNames, type choiceNames, type PerChoice } from '../drive/drive.ts';
import type { PointResult } from '../study/result.ts';
import { count, percent } from './figures.ts';
import { causeWords } from './names.ts';

/** Early false crossings by cause, counted, with each cause's share of its choice's. */
export function causeRows({ choices }: Pick<PointResult, 'choices'>) {
	return causeNames.map((cause) => {
		const cell = (choice: (typeof choiceNames)[number]): string => {
			const seen = choices[choice].causes[cause];
			const all = choices[choice].rates.early.count;
			return all === 0 ? '0' : `${count(seen)} (${percent(seen / all)})`;
		};
		const figures: PerChoice<string> = { halfBus: cell('halfBus'), virtualNeutral: cell('virtualNeutral') };
		return { cause, words: causeWords[cause], figures };
	});
}
