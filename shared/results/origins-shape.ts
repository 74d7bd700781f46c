import type { ChoiceOrigins, GroupShare, OriginsResult, Share } from '../origins/origins-result.ts';
import type { PartCorrelation, PartCorrelations } from '../origins/part-correlations.ts';
import { interval, perChoice, provenance, sentence, word } from './common-shapes.ts';
import { type Check, count, dictionary, figure, list, number, object, one, optional, orNull } from './shape.ts';

const share = object<Share>({ value: figure, low: figure, high: figure });
const kinds = list(figure, 6);
/** As many as `origins` takes. */
const mostRows = 100_000;

const choice = object<ChoiceOrigins>({
	rows: count,
	rowsWithout: count,
	spread: figure,
	squares: optional(list(figure, mostRows)),
	kinds: list(object({ mean: figure, sd: figure }), 6),
	groups: list(
		object<GroupShare>({
			id: word,
			name: word,
			first: share,
			total: share,
			kinds: object({ first: kinds, total: kinds }),
		}),
		200,
	),
	still: list(word, 200),
	together: figure,
	togetherInterval: interval,
});

const source: Check<PartCorrelation['source']> = (value, path) => (value === 'lot' ? null : count(value, path));
const correlations = object<PartCorrelations>({
	drives: perChoice(count),
	chance: perChoice(figure),
	parts: list(object<PartCorrelation>({ id: word, source, name: word, kinds: perChoice(kinds) }), 500),
});

/** What `origins` finds, field by field. */
export const originsShape = object<OriginsResult>({
	format: one('anglespread-origins'),
	formatVersion: one(1, 2),
	provenance,
	point: word,
	conditions: dictionary(number, 200),
	rows: count,
	drivesPerRow: count,
	choices: perChoice(choice),
	correlations: orNull(correlations),
	sentence,
});
