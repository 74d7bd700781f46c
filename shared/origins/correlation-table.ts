import { choiceNames } from '../drive/drive.ts';
import type { UnitRecord } from '../study/point-change.ts';
import type { CsvRow } from '../words/csv.ts';
import { sectorWords } from '../words/names.ts';
import { partCorrelations } from './part-correlations.ts';

/**
 * Rank correlations of every part that varies with the signed mean error of each
 * sector kind, from a study's own units: a row for each operating point, choice
 * and part, the first row the header. `chance` is the size that the largest of
 * a point's and choice's correlations passes by chance in one study of twenty.
 */
export function correlationTable({ plan, study }: UnitRecord): readonly CsvRow[] {
	const kinds = sectorWords.map(({ phase, rising }) => `${phase} ${rising ? 'rising' : 'falling'}`);
	const rows = plan.scenario.points.flatMap(({ name }, point) => {
		const { drives, chance, parts } = partCorrelations(plan, study, point);
		return choiceNames.flatMap((choice) =>
			parts.map((part): CsvRow => {
				const source = part.source === 'lot' ? 'lot' : (['a', 'b', 'c'][part.source] ?? String(part.source));
				return [name, choice, part.id, source, drives[choice], chance[choice], ...part.kinds[choice]];
			}),
		);
	});
	return [['point', 'choice', 'parameter', 'instance', 'drives', 'chance', ...kinds], ...rows];
}
