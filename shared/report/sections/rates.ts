import { type ChoiceName, choiceNames } from '../../drive/drive.ts';
import { leastEffective } from '../../statistics/effective-number.ts';
import { computedIntervalWords } from '../../study/computed-rows.ts';
import type { PointResult, RateFigure } from '../../study/result.ts';
import { sectorsPerHour } from '../../study/sectors-per-hour.ts';
import { chancePerHour, count, leastFigure, perHour, span } from '../../words/figures.ts';
import { levelWords } from '../../words/level.ts';
import { eventKinds, eventWords } from '../../words/names.ts';
import { affectedBound } from '../../words/rate.ts';
import { choiceHeads } from '../choice-mark.ts';
import { html, type Markup } from '../html.ts';
import { type Report, studyOf } from '../report.ts';
import { type Section, section } from '../section.ts';
import { table } from '../table.ts';

/** Early, late and missed crossings in an operating hour: as counted, and as computed from the noise. */
export function rates(report: Report): Section {
	const { result } = studyOf(report);
	const { points } = report.scenario;
	return section(
		'rates',
		'Crossings gone wrong per operating hour',
		html`
<p>A good design takes a false crossing once in millions of sectors, which no count sees. So every rate stands here
twice: as <em>counted</em> over all measured sectors, and as <em>computed</em> from the exact chance of an early, late or
missed crossing in each of them, given its noise-free inputs. The requirement, at most ${perHour(result.requirement.crossingsPerHour)} an hour, is asked of every drive by itself and judged by its computed rate;
how many drives exceed it stands under “The verdict”. The rates here are means over all drives.
Computed rates assume Gaussian noise, independent from reading to reading, as far out as the figure implies.</p>
${result.points.map((point, place) => pointTable(point, result.provenance.level, sectorsPerHour(report.scenario, points[place] as (typeof points)[0])))}
${result.points.length > 1 && allPoints(report, result.points)}`,
	);
}

function pointTable({ name, choices }: PointResult, level: number, sectors: number): Markup {
	const confidence = levelWords(level);
	const counted = ({ low, high, perHour: hourly, count: seen, boundOn }: RateFigure): Markup =>
		boundOn === 'units'
			? html`none seen<small>${affectedBound({ high })} affected</small>`
			: html`${perHour(hourly)}<small>${span(perHour(sectors * low), perHour(sectors * high))}; ${count(seen)} seen</small>`;
	const computed = (choice: ChoiceName, kind: (typeof eventKinds)[number] | 'all'): Markup | string => {
		const figure = choices[choice].computed?.[kind];
		if (!figure) return 'not computed';
		const isNothing = figure.perHour < leastFigure;
		const few = figure.effective < leastEffective;
		const carriers =
			figure.effective < 1.5
				? 'one drive carries it'
				: `the weight of ${Math.round(figure.effective)} of ${count(choices[choice].units)} drives carries it`;
		return html`${chancePerHour(figure.perHour)}${!isNothing && html`<small>${few ? `${carriers}, too few for limits` : computedIntervalWords(figure, sectors)}</small>`}`;
	};
	return table({
		caption: `At ${name}, ${count(sectors)} sectors an hour; ${confidence} limits below each figure`,
		head: ['', ...choiceHeads],
		rows: [
			...eventKinds.flatMap((kind) => [
				{ group: eventWords[kind] },
				{ level: 1, cells: ['counted', ...choiceNames.map((choice) => counted(choices[choice].rates[kind]))] },
				{ level: 1, cells: ['computed', ...choiceNames.map((choice) => computed(choice, kind))] },
			]),
			{ group: 'all three together' },
			{ level: 1, cells: ['computed', ...choiceNames.map((choice) => computed(choice, 'all'))] },
		],
	});
}

/** Mean over the points by their share of the operating hours. */
function allPoints({ scenario }: Report, results: readonly PointResult[]): Markup {
	const shares = scenario.points.map(({ values }) => values['operation.share'] ?? 1);
	const hours = shares.reduce((sum, share) => sum + share, 0);
	const mean = (of: (point: PointResult) => number | null): number | null => {
		let sum = 0;
		for (const [place, point] of results.entries()) {
			const figure = of(point);
			if (figure === null) return null;
			sum += (figure * (shares[place] as number)) / hours;
		}
		return sum;
	};
	const row = (label: string, words: (choice: ChoiceName) => string) => ({
		cells: [label, ...choiceNames.map(words)],
	});
	return table({
		caption: 'Over all operating points, by their share of the hours: early, late and missed together, per hour',
		head: ['', ...choiceHeads],
		rows: [
			row('counted', (choice) => {
				const figure = mean(({ choices }) =>
					eventKinds.reduce((sum, kind) => sum + choices[choice].rates[kind].perHour, 0),
				);
				return figure === 0 ? 'none seen' : perHour(figure ?? 0);
			}),
			row('computed', (choice) => {
				const figure = mean(({ choices }) => choices[choice].computed?.all.perHour ?? null);
				return figure === null ? 'not computed' : chancePerHour(figure);
			}),
		],
		notes: [
			'A figure below 10⁻¹⁸ is not told: no noise is known to be Gaussian so far out.',
			'A mean over all drives: the worst drives dominate it, and a typical drive is far better.',
		],
	});
}
