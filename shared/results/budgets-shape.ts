import type { BudgetsResult, ChoiceBudgets, KindBudgets } from '../budgets/budgets-result.ts';
import { interval, perChoice, provenance, sentence, word } from './common-shapes.ts';
import { count, dictionary, figure, list, number, object, one, orNull, pair } from './shape.ts';

/** Parts and conditions with limits, instances each by itself. */
const mostSources = 500;

const kind = object<KindBudgets>({
	middle: figure,
	extremeValue: object({ linear: figure, low: orNull(figure), high: orNull(figure) }),
	rootSumSquare: figure,
	propagated: figure,
	monteCarlo: orNull(
		object({ mean: figure, sd: figure, interval, min: figure, max: figure, withinRootSumSquare: figure }),
	),
	effects: list(pair(figure), mostSources),
});

const choice = object<ChoiceBudgets>({
	drawn: count,
	drawnWithout: count,
	kinds: list(orNull(kind), 6),
	without: list(word, mostSources),
	worstKind: orNull(one(0, 1, 2, 3, 4, 5)),
});

/** What `budgets` finds, field by field. */
export const budgetsShape = object<BudgetsResult>({
	format: one('anglespread-budgets'),
	formatVersion: one(1),
	provenance,
	point: word,
	conditions: dictionary(number, 200),
	phases: count,
	sources: list(object({ id: word, name: word }), mostSources),
	choices: perChoice(choice),
	sentence,
	why: sentence,
});
