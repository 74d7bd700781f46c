import { choiceNames } from '../../shared/drive/drive.ts';
import type { IntervalFigures, MeasuredAgainst, MeasuredResult } from '../../shared/measured/measured-result.ts';
import { count, degrees, percent, withMinus } from '../../shared/words/figures.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { heading, provenanceLines } from './provenance-lines.ts';
import { padEnd, padStart, wrapText } from './wrap-text.ts';

/** Below so many different values a timer's steps show in the distribution. */
const fewValues = 50;
/** Drives of the log named one by one. */
const drivesShown = 12;

/** Measured intervals beside the predicted ones, as a text of 80 columns. */
export function measuredTable(result: MeasuredResult): string {
	const { provenance, log, choices, intervals, point } = result;
	const { asked, finished } = provenance.units;
	const lines = [
		wrapText(`${provenance.scenario}: measured sector intervals at ${point}`),
		'',
		wrapText(result.sentence),
	];
	if (provenance.partial) {
		lines.push(wrapText(`PARTIAL RESULT: interrupted after ${count(finished)} of ${count(asked)} drives.`));
	}
	const sides: readonly (IntervalFigures | null)[] = [
		log.figures,
		...choiceNames.map((choice) => choices[choice]?.figures ?? null),
	];
	const figures = (label: string, words: (side: IntervalFigures) => string): string =>
		columns(label, ...sides.map((side) => (side === null ? '–' : words(side))));
	lines.push(
		'',
		heading('Sector intervals, degrees of their own revolution'),
		columns('', 'measured', ...choiceNames.map((choice) => choiceWords[choice])),
		figures('drives', ({ drives }) => count(drives)),
		figures('spread within a drive', ({ spread }) => degrees(spread)),
		...[0.025, 0.25, 0.5, 0.75, 0.975].map((share) =>
			figures(`${percent(share)} are below`, ({ quantiles }) => `${(quantiles[share] ?? Number.NaN).toFixed(2)}°`),
		),
		figures('correlation with the next', ({ serial }) => withMinus(serial.toFixed(2))),
		'',
		heading('Test of fit'),
		columns('', '', ...choiceNames.map((choice) => choiceWords[choice])),
		tests('largest difference of shares', choices, ({ shape }) => percent(shape.d)),
		tests('  found at', choices, ({ shape }) => `${shape.at.toFixed(2)}°`),
		tests('  chance alone reaches', choices, ({ shape }) => percent(shape.chance)),
		tests('  p, whole drives dealt anew', choices, ({ shape }) => probability(shape.p)),
		tests('spreads of drives, p', choices, ({ spreads }) => probability(spreads.p)),
		tests('a difference', choices, ({ differs }) => (differs ? 'is shown' : 'is not shown')),
		'',
		wrapText(
			`Compared are ${count(intervals)} intervals in a row of each drive: ${log.drives
				.slice(0, drivesShown)
				.map(({ name, logged }) => `${name} (${count(logged)} logged)`)
				.join(', ')}${log.drives.length > drivesShown ? ` and ${count(log.drives.length - drivesShown)} more` : ''}.`,
		),
		wrapText(
			'A test shows that distributions differ, never that they agree. Swings of the real speed within a revolution, which the model does not know, widen what is measured.',
		),
	);
	if (log.distinct < fewValues) {
		lines.push(
			wrapText(
				`${log.distinct === 1 ? 'The log has one and the same interval throughout' : `The log has only ${count(log.distinct)} different intervals`}: the timer is coarse, and its steps alone make a difference.`,
			),
		);
	}
	for (const choice of choiceNames) {
		const lost = choices[choice]?.lost ?? 0;
		if (lost > 0)
			lines.push(wrapText(`${count(lost)} simulated drives lost lock with ${choiceWords[choice]}, and are left out.`));
	}
	lines.push(...provenanceLines(provenance));
	return `${lines.join('\n')}\n`;
}

const tests = (label: string, choices: MeasuredResult['choices'], words: (found: MeasuredAgainst) => string): string =>
	columns(
		label,
		'',
		...choiceNames.map((choice) => {
			const found = choices[choice];
			return found === null ? '–' : words(found);
		}),
	);

const columns = (label: string, ...cells: readonly string[]): string =>
	padEnd(label, 29) + cells.map((cell) => padStart(cell, 17)).join('');

const probability = (p: number): string => (p < 0.001 ? 'below 0.001' : p.toFixed(3));
