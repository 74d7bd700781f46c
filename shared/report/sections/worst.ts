import { type ChoiceName, choiceNames } from '../../drive/drive.ts';
import { partRows } from '../../one-drive/part-rows.ts';
import { shortcomingWords } from '../../study/point-rows.ts';
import { count, degrees } from '../../words/figures.ts';
import { choiceWords } from '../../words/names.ts';
import { choiceHeads, markedChoice } from '../choice-mark.ts';
import { html, type Markup } from '../html.ts';
import { type Report, studyOf, type WorstDrive } from '../report.ts';
import { type Section, section } from '../section.ts';
import { table } from '../table.ts';
import { waveform } from '../waveform.ts';

/** Parts of a drive that are listed, the most unusual first. */
const partsShown = 8;

/** The worst drives of every point, and each choice's very worst with its waveforms and what is to blame. */
export function worst(report: Report): Section {
	const { result } = studyOf(report);
	const starts = Math.max(...result.points.map(({ choices }) => choices.halfBus.worst.length), 0);
	return section(
		'worst',
		'The worst drives and their waveforms',
		html`
<p>Drives are counted from 0; with the seed, a number gives the same drive again. The figure is the angle that 95 % of
the drive's own commutations keep within, over all its starts. Below the table stands the worst of all for each choice; any
other drive can be looked into by its number on the program's page, under “One drive”.</p>
${starts > 0 && worstTable(report)}
${choiceNames.map((choice) => {
	const drive = report.worst[choice];
	return drive
		? drawDrive(drive, report)
		: html`<p class="not-computed">No waveforms are shown for ${choiceWords[choice]}: ${report.isCutShort ? 'the report was interrupted first' : 'no drive was finished, or it could not be simulated again'}.</p>`;
})}`,
	);
}

function worstTable(report: Report): Markup {
	const { points } = studyOf(report).result;
	const most = Math.min(5, Math.max(...points.map(({ choices }) => choices.halfBus.worst.length)));
	return table({
		caption: 'The worst drives at each operating point',
		head: ['', ...choiceHeads],
		rows: points.flatMap(({ name, choices }) => [
			{ group: name },
			...Array.from({ length: most }, (_, rank) => ({
				level: 1,
				cells: [
					`${rank + 1}.`,
					...choiceNames.map((choice) => {
						const unit = choices[choice].worst[rank];
						if (!unit) return '–';
						const error = Number.isFinite(unit.error) ? degrees(unit.error) : 'lost lock';
						const why = unit.shortcoming === null ? 'passes' : shortcomingWords[unit.shortcoming];
						return `drive ${unit.unit}: ${error}${why === error ? '' : `, ${why}`}`;
					}),
				],
			})),
		]),
	});
}

function drawDrive(drive: WorstDrive, { scenario }: Report): Markup {
	const { choice, unit, point, start, error, diagnoses, parts, window } = drive;
	const said = diagnoses.filter((one) => one.choice === choice);
	const own = parts.filter(({ record, acts }) => acts && isOnBoard(record.id, choice));
	const ms = (time: number): string => (1e3 * time).toFixed(2);
	return html`
<section class="drive">
<h3>${markedChoice(choice)}: drive ${unit} at ${scenario.points[point]?.name}</h3>
<p>The worst of all drives and operating points with ${choiceWords[choice]} sensing:
${Number.isFinite(error) ? `95 % of its commutations lie within ${degrees(error)} there` : 'it loses lock there'}
over its ${count(Number(scenario.values['trial.starts']))} starts. The worst of these is start ${start}, counted from 0, and the figures that follow are of that one alone.
${said.map(({ sentence }) => `${sentence} `)}</p>
<figure><figcaption>${ms(window.from)} to ${ms(window.to)} ms of its run with ${choiceWords[choice]}, around its worst sector</figcaption>
${waveform(drive)}
<p class="note">${!Number.isFinite(error) && 'The run ends where lock is lost; nothing is drawn after that. '}Pale: sense node and threshold. Discs: the sense node at each reading, filled where it votes “crossed”; strong dashes: the
threshold it was compared with. Grey ground: blanking, in which nothing is read. Upright green dashes: the true crossing; upright line with a
triangle: the crossing that was taken; other upright lines: commutations. Numbers count sectors from the start of the run. Bars under “votes” reach the dotted line when a crossing is accepted. Of the currents, phase a is black, b violet, c green.</p></figure>
${table({
	caption: `Its parts, the most unusual first`,
	head: ['Part', 'as built', 'deviation', 'as far out or farther'],
	rows: partRows(own.slice(0, partsShown)).map(({ name, value, deviation, asFarOut }) => ({
		cells: [name, value, deviation, asFarOut],
	})),
	notes: [
		`${Math.min(partsShown, own.length)} of ${own.length} parts that vary and that this choice’s board has in use at this point. “1 in 40”: one such part in 40 lies as far out or farther.`,
	],
})}
</section>`;
}

/** Whether a board with this choice has the part. */
const isOnBoard = (id: string, choice: ChoiceName): boolean =>
	choiceNames.every((other) => other === choice || !id.startsWith(`sensing.${other}.`));
