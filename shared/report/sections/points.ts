import { errorBins } from '../../charts/error-bins.ts';
import { drawPictures, type Picture } from '../../charts/pictures.ts';
import { choiceNames } from '../../drive/drive.ts';
import { pointRows } from '../../study/point-rows.ts';
import type { PointResult } from '../../study/result.ts';
import { unitFigureNames, unitFigures } from '../../study/unit-figures.ts';
import { power, signedDegrees, span } from '../../words/figures.ts';
import { levelWords } from '../../words/level.ts';
import { choiceWords } from '../../words/names.ts';
import { choiceHeads, markedChoice } from '../choice-mark.ts';
import { type DrawChart, printed, reportTheme } from '../drawing.ts';
import { type Content, html, type Markup, raw } from '../html.ts';
import { type Report, studyOf } from '../report.ts';
import { type Section, section } from '../section.ts';
import { table } from '../table.ts';

/** Each operating point: its sentence, pictures and tables. */
export async function points(report: Report, draw: DrawChart): Promise<Section> {
	const { result } = studyOf(report);
	const parts: Content[] = [];
	for (const point of result.points) parts.push(await drawPoint(point, result.provenance.level, draw));
	const key = html`<p class="key">${choiceNames.map((choice) => html`<span>${markedChoice(choice)}</span>`)}
<span>late is positive; angles are electrical degrees</span></p>`;
	return section('points', 'Each operating point in pictures and figures', [key, parts]);
}

async function drawPoint(point: PointResult, level: number, draw: DrawChart): Promise<Markup> {
	const bins = errorBins(point.choices);
	const { counts, cumulative, differences, rates, openMarks, sectors, outside } = drawPictures(
		point,
		bins,
		reportTheme,
	);
	const figure = async (title: string, picture: Picture | null): Promise<Content> =>
		picture &&
		html`<figure><figcaption>${title}</figcaption><div role="img" aria-label="${picture.describes}">${raw(await draw(printed(picture.spec)))}</div></figure>`;
	return html`
<section class="point">
<h3>${point.name}</h3>
<p>${point.paired.sentence}</p>
<div class="pictures">
${await figure('Commutation-angle errors, counted', counts)}
${await figure('Share of commutations up to an error', cumulative)}
${await figure('Drives by how much the two choices differ on them', differences)}
${await figure(`Crossings gone wrong, counted and computed, ${levelWords(level)} intervals`, rates)}
${await figure('Mean error of the six kinds of sector', sectors)}
</div>
<p class="note">${outside} ${differences?.leftOut} ${openMarks}</p>
${figureTable(point, level)}
${pairTable(point, level)}
</section>`;
}

function figureTable(point: PointResult, level: number): Markup {
	return table({
		caption: `All figures at ${point.name}`,
		head: ['', ...choiceHeads],
		kind: 'dense',
		rows: pointRows(point, level).map(({ label, level: depth, words }) =>
			words === null ? { group: label } : { level: depth, cells: [label, words.halfBus, words.virtualNeutral] },
		),
	});
}

/** The two choices on the same drives. */
function pairTable({ name, paired }: PointResult, level: number): Markup {
	const words = (difference: number): string =>
		Number.isFinite(difference)
			? signedDegrees(difference)
			: `${choiceWords[difference > 0 ? 'halfBus' : 'virtualNeutral']} lost`;
	return table({
		caption: `Drive by drive at ${name}: half-bus less virtual neutral on the same drives`,
		head: ['', 'median difference', `${levelWords(level)} interval`, 'sign test, p', 'smaller with'],
		words: [4],
		rows: unitFigureNames.map((figure) => {
			const { medianDifference, interval, p, better } = paired.figures[figure];
			return {
				cells: [
					unitFigures[figure].signed ? `size of ${unitFigures[figure].short}` : unitFigures[figure].words,
					medianDifference === null ? '–' : words(medianDifference),
					interval === null ? 'too few drives' : span(words(interval[0]), words(interval[1])),
					power(p),
					better === 'not shown' ? 'not shown' : choiceWords[better],
				],
			};
		}),
		notes: [
			`Each line is a test by itself at ${levelWords(level)}: of many such lines in a report some come out by chance. What the choices are compared by is the first.`,
		],
	});
}
