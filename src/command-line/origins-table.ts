import { type ChoiceName, choiceNames } from '../../shared/drive/drive.ts';
import { bareName, isSlight, kindsOffTheSix } from '../../shared/origins/origin-words.ts';
import { type ChoiceOrigins, fewestRows, type OriginsResult, type Share } from '../../shared/origins/origins-result.ts';
import { shareWords } from '../../shared/origins/origins-sentence.ts';
import type { PartCorrelations } from '../../shared/origins/part-correlations.ts';
import { capital } from '../../shared/words/capital.ts';
import { count, degrees, signedDegrees, span } from '../../shared/words/figures.ts';
import { levelWords } from '../../shared/words/level.ts';
import { choiceWords, sectorWords } from '../../shared/words/names.ts';
import { heading, provenanceLines } from './provenance-lines.ts';
import { row } from './two-columns.ts';
import { padEnd, padStart, wrapText } from './wrap-text.ts';

/** Parts named in the list of rank correlations; the JSON has all. */
const partsShown = 8;

/** Where the spread comes from, as a text of 80 columns: the answer, the shares, what they rest on. */
export function originsTable(result: OriginsResult): string {
	const { provenance, point, choices, correlations } = result;
	const { asked, finished } = provenance.units;
	const lines = [wrapText(`${provenance.scenario}: where the spread comes from at ${point}`), ''];
	if (finished === 0) lines.push('No drive was finished: nothing is shown.');
	else lines.push(wrapText(result.sentence));
	if (provenance.partial) {
		lines.push(wrapText(`PARTIAL RESULT: interrupted after ${count(finished)} of ${count(asked)} drives.`));
	}
	for (const choice of choiceNames) {
		const told = choiceLines(choices[choice], result);
		if (told.length > 0) lines.push('', heading(choiceWords[choice]), ...told);
	}
	if (correlations) {
		lines.push('', heading('From an ordinary study: how parts go with late commutation'));
		for (const choice of choiceNames) lines.push(...correlationLines(correlations, choice));
	}
	lines.push(...provenanceLines(provenance));
	return `${lines.join('\n')}\n`;
}

function choiceLines(origins: ChoiceOrigins, { rows, provenance }: OriginsResult): string[] {
	const confidence = levelWords(provenance.level);
	const left =
		origins.rowsWithout > 0
			? [
					wrapText(
						`${origins.rows === 0 ? 'All' : `${count(origins.rowsWithout)} of ${count(rows)}`} rows are left out, since a drive of each lost lock or found no crossing in some sector kind${origins.rows === 0 ? '.' : ': the shares hold for the others.'}`,
					),
				]
			: [];
	if (origins.rows === 0) return left;
	if (origins.rows < fewestRows) {
		const rows = `${count(origins.rows)} finished ${origins.rows === 1 ? 'row' : 'rows'} of drives`;
		return [...left, wrapText(`${rows}: shares take ${fewestRows} at least.`)];
	}
	const offTheSix = kindsOffTheSix(origins);
	return [
		...left,
		row(`Of the variance (${confidence} limits)`, 'alone', 'with interactions'),
		...origins.groups
			.filter((group) => !isSlight(group))
			.map(({ name, first, total }) => row(`  ${bareName(name)}`, intervalWords(first), intervalWords(total))),
		...listed('Below half a per cent, each', origins.groups.filter(isSlight)),
		...listed(
			'Without spread of their own here',
			origins.still.map((name) => ({ name })),
		),
		'',
		padEnd('Sector, by its open phase', 30) +
			padStart('off the six', 12) +
			padStart('deviation', 12) +
			padStart('most of it from', 26),
		...offTheSix.rows.map(
			({ off, sd, most }, kind) =>
				padEnd(`  ${sectorName(kind)}`, 30) +
				padStart(signedDegrees(off), 12) +
				padStart(degrees(sd), 12) +
				padStart(most, 26),
		),
		wrapText(offTheSix.words, { first: '  ', rest: '  ' }),
	];
}

const listed = (lead: string, groups: readonly { readonly name: string }[]): string[] =>
	groups.length === 0
		? []
		: [wrapText(`${lead}: ${groups.map(({ name }) => bareName(name)).join(', ')}.`, { first: '  ', rest: '  ' })];

const intervalWords = ({ value, low, high }: Share): string =>
	`${shareWords(value)}  ${padStart(span(shareWords(low), shareWords(high)), 13)}`;

function correlationLines({ parts, drives, chance }: PartCorrelations, choice: ChoiceName): string[] {
	const limit = chance[choice];
	const strength = (kinds: readonly number[]): number => Math.max(...kinds.map(Math.abs));
	const shown = parts
		.map(({ name, kinds }) => ({ name, kinds: kinds[choice].map((rho) => (Number.isNaN(rho) ? 0 : rho)) }))
		.filter(({ kinds }) => strength(kinds) > limit)
		.sort((one, other) => strength(other.kinds) - strength(one.kinds));
	if (Number.isNaN(limit)) return [`${capital(choiceWords[choice])}: no drives to compare.`];
	return [
		padEnd(`${capital(choiceWords[choice])}, ${count(drives[choice])} drives`, 32) +
			sectorWords.map(({ phase, rising }) => padStart(`${phase} ${rising ? '↑' : '↓'}`, 8)).join(''),
		...shown
			.slice(0, partsShown)
			.map(
				({ name, kinds }) =>
					padEnd(`  ${name}`, 32) + kinds.map((rho) => padStart(Math.abs(rho) > limit ? signed(rho) : '·', 8)).join(''),
			),
		wrapText(
			shown.length > partsShown
				? `and ${shown.length - partsShown} more parts beyond ±${limit.toFixed(2)}, as chance alone seldom is (·: within).`
				: `No other part is beyond ±${limit.toFixed(2)}, as chance alone seldom is (·: within).`,
			{ first: '  ', rest: '  ' },
		),
	];
}

/** Sector kind: "c, falling". */
const sectorName = (kind: number): string => {
	const { phase = '', rising = false } = sectorWords[kind] ?? {};
	return `${phase}, ${rising ? 'rising' : 'falling'}`;
};

const signed = (rho: number): string => `${rho < 0 ? '−' : '+'}${Math.abs(rho).toFixed(2)}`;
