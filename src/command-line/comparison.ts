import { referenceTemperature } from '../../shared/parameters/acting-parts.ts';
import { parameter } from '../../shared/parameters/parameters.ts';
import type { OperatingPoint } from '../../shared/scenario/scenario.ts';
import type { UnitRecord } from '../../shared/study/point-change.ts';
import { pointRows } from '../../shared/study/point-rows.ts';
import type { PointResult, StudyResult } from '../../shared/study/result.ts';
import { rangeWords } from '../../shared/words/conditions.ts';
import { count } from '../../shared/words/figures.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { quantity } from '../../shared/words/quantity.ts';
import { decisionLines } from './decision-lines.ts';
import { pairLines } from './pair-lines.ts';
import { cautionLines, groundLines, heading } from './provenance-lines.ts';
import { row } from './two-columns.ts';
import { wrapText } from './wrap-text.ts';

/** A study as a text of 80 columns that can be pasted into a mail: the answer, the figures, what they rest on. */
export function comparison(result: StudyResult & { readonly record: Pick<UnitRecord, 'plan'> }): string {
	const { provenance, points, record } = result;
	const { asked, finished } = provenance.units;
	const lines = [wrapText(`${provenance.scenario}: half-bus against virtual-neutral sensing`)];
	if (provenance.partial) {
		lines.push(wrapText(`PARTIAL RESULT: interrupted after ${count(finished)} of ${count(asked)} drives.`));
	}
	// what the inputs put in doubt comes before the figures made of them
	lines.push('', ...decisionLines(result), ...cautionLines(provenance));
	if (finished > 0) {
		for (const [place, point] of points.entries()) {
			const ranges = record.plan.scenario.points[place]?.ranges ?? {};
			lines.push('', ...pointLines(point, ranges, provenance.level), ...pairLines(point));
		}
	}
	lines.push(...groundLines(provenance));
	return `${lines.join('\n')}\n`;
}

function pointLines(point: PointResult, ranges: OperatingPoint['ranges'], level: number): string[] {
	return [
		heading(point.name),
		wrapText(conditionWords(point.conditions, ranges)),
		'',
		wrapText(point.paired.sentence),
		'',
		row('', choiceWords.halfBus, choiceWords.virtualNeutral),
		...pointRows(point, level).map(({ label, level: depth, words }) =>
			words === null ? label : row(`${'  '.repeat(depth)}${label}`, words.halfBus, words.virtualNeutral),
		),
	];
}

/** The point's conditions, each with the range that it is swept through, stated or not. */
function conditionWords(conditions: PointResult['conditions'], ranges: OperatingPoint['ranges']): string {
	return Object.entries(conditions)
		.flatMap(([id, value]) => {
			const { name, kind, ...record } = parameter(id);
			if (kind === 'choice' || id === 'operation.share' || !('unit' in record)) return [];
			// where nominal values hold it need not be told
			if (record.unit === '°C' && value === referenceTemperature && !ranges[id]?.halfWidth) return [];
			return [`${name} ${quantity(value, record.unit, 6)}${rangeWords(record, ranges[id])}`];
		})
		.join(', ');
}
