import type { ChangesResult, Side } from '../../shared/changes/changes-result.ts';
import { choiceNames } from '../../shared/drive/drive.ts';
import type { PointChange } from '../../shared/study/point-change.ts';
import { capital } from '../../shared/words/capital.ts';
import { changedDrives, headlines, inDegrees, wordsOf } from '../../shared/words/change.ts';
import { count } from '../../shared/words/figures.ts';
import { levelWords } from '../../shared/words/level.ts';
import { choiceWords } from '../../shared/words/names.ts';
import { quantity } from '../../shared/words/quantity.ts';
import { heading } from './provenance-lines.ts';
import { padEnd, padStart, wrapText } from './wrap-text.ts';

/** What changed, as a text of 80 columns: the answer, verdicts, inputs, figures point by point, what they rest on. */
export function changesTable(changes: ChangesResult): string {
	const { before, after, verdicts, points, onlyBefore, onlyAfter } = changes;
	const lines = [
		wrapText(`${after.scenario}: what changed`),
		'',
		wrapText(changes.sentence),
		...[before, after]
			.filter(({ partial }) => partial)
			.map((side) => wrapText(`PARTIAL RESULT ${side === before ? 'before' : 'after'}: it was interrupted.`)),
		'',
		heading('Verdicts'),
		...choiceNames.flatMap((choice) => {
			const { step, sentences } = verdicts[choice];
			return sentences.before === sentences.after
				? [item(`As before. ${sentences.after}`)]
				: [
						item(`${capital(step)}. Before: ${sentences.before}`),
						wrapText(`Now: ${sentences.after}`, { first: '  ', rest: '  ' }),
					];
		}),
	];
	if (changes.requirementChanged) {
		lines.push(wrapText('The requirement itself was changed: the verdicts are of different things.'));
	}
	lines.push('', ...inputLines(changes));
	for (const { name, change } of points) lines.push('', ...pointLines(name, change, after.level));
	for (const name of onlyBefore) lines.push(wrapText(`Operating point ${name} is in the earlier result alone.`));
	for (const name of onlyAfter) lines.push(wrapText(`Operating point ${name} is in the later result alone.`));
	lines.push('', heading('What this rests on'));
	if (points.length === 0) lines.push('No operating point is in both results, so no figures are compared.');
	else lines.push(...comparedLines(changes));
	lines.push(...sideLines('Before', before), ...sideLines('After', after));
	lines.push(wrapText('These are simulated estimates; measurement on real hardware decides.', itemMargins));
	return `${lines.join('\n')}\n`;
}

/** How figures were compared. */
function comparedLines({ pairing, before, after }: ChangesResult): string[] {
	const lines = [wrapText(pairingWords[pairing]), ...lackLines('earlier', before), ...lackLines('later', after)];
	if (pairing === 'figures') return lines;
	const pairs = pairing === 'none' ? '' : '; those of pairs by the correlation measured between the two';
	const limits = `Limits of medians and quantiles from order statistics, of shares by square-and-add, of rates from the ratio estimator${pairs}.`;
	return [...lines, wrapText(limits)];
}

const pairingWords: Readonly<Record<ChangesResult['pairing'], string>> = {
	drives: 'Both results are of the same seed and version: drive 1 is the same draw in both. Limits are those of pairs.',
	seed: 'Both results are of the same seed, but of different versions, which may draw drives differently. Limits are those of pairs; they rest on the correlation found, whatever it is.',
	none: 'The results have different seeds, so their drives are different ones. Limits are those of independent drives.',
	figures:
		'Changes are from the figures as they stand, as if of different drives, with wider limits than pairs would give; rates are not compared.',
};

/** Why drives cannot be compared with drives, and what to do. */
function lackLines(which: string, { holdsDrives, mostDrives, units }: Side): string[] {
	if (holdsDrives) return [];
	const why =
		units.finished + units.failed > mostDrives
			? `a file takes ${count(mostDrives)} of as many operating points. To compare drive by drive, run that study again with no more`
			: 'files of version 1 do not. To compare drive by drive, run that study again with this program';
	return [wrapText(`The ${which} file does not hold its drives: ${why}, and --json.`)];
}

function inputLines({ inputs, sameScenario, before, after }: ChangesResult): string[] {
	const lines = [heading('Inputs')];
	if (inputs === null) lines.push(sameScenario ? 'The same, by their digest.' : 'Different, by their digest.');
	else if (inputs.length === 0) lines.push('None changed.');
	for (const { name, before: was, after: is } of inputs ?? []) lines.push(item(`${name}: ${was} → ${is}`));
	for (const choice of choiceNames) {
		const [was, is] = [before.compensation[choice], after.compensation[choice]];
		if (was === is) continue;
		lines.push(item(`compensated delay, ${choiceWords[choice]}: ${quantity(was, 's')} → ${quantity(is, 's')}`));
	}
	return lines;
}

function pointLines(name: string, change: PointChange | null, level: number): string[] {
	const lines = [heading(name)];
	if (change === null) return [...lines, 'No drive finished in both.'];
	lines.push(`On ${changedDrives(change)}`, columns('', 'before', 'after', 'change'));
	const figure = (label: string, of: Parameters<typeof wordsOf>): void => {
		const words = wordsOf(...of);
		if (words === null) {
			lines.push(columns(label, '–', '–', 'none to state'));
			return;
		}
		const { before, after, step, interval } = words;
		lines.push(columns(label, before, after, step.replace(/ ±.*/, '') || '–'));
		lines.push(padEnd(`    ${levelWords(level)} interval`, 28) + padStart(interval, 52));
	};
	for (const choice of choiceNames) {
		lines.push(choiceWords[choice]);
		for (const { name: of, label, print } of headlines) figure(`  ${label}`, [change.choices[choice][of], print]);
	}
	lines.push('half-bus less virtual neutral');
	figure('  median difference', [change.gap, inDegrees]);
	return lines;
}

const columns = (label: string, before: string, after: string, change: string): string =>
	padEnd(label, 28) + padStart(before, 13) + padStart(after, 13) + padStart(change, 26);

function sideLines(title: string, { version, seed, units, scenarioDigest, resultDigest }: Side): string[] {
	return [
		wrapText(`${title}: ${count(units.finished)} of ${count(units.asked)} drives, seed ${seed}, version ${version}`),
		`  scenario ${scenarioDigest}`,
		`  result   ${resultDigest}`,
	];
}

const itemMargins = { first: '- ', rest: '  ' };
const item = (text: string): string => wrapText(text, itemMargins);
