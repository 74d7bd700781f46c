import type { Figure, FigureDifference } from '../../shared/results/figure-differences.ts';
import { count } from '../../shared/words/figures.ts';
import { choiceWords } from '../../shared/words/names.ts';
import type { MadeAgain, Reproduction } from './pack/reproduction.ts';
import { heading } from './provenance-lines.ts';
import { padEnd, padStart, wrapText } from './wrap-text.ts';

/** Differences shown one by one; the JSON has all. */
const mostShown = 20;
/** Below it a difference is one of the order in which an engine rounds. */
const slightest = { size: 1e-9, words: '10⁻⁹' };

/** What came of a pack's figures, made again. */
export function reproduceTable({ pack, node, platform, packed, current, isSameProgram }: Reproduction): string {
	const lines = [
		wrapText(`${pack.scenario}, seed ${pack.seed}, packed by version ${pack.version}.`),
		wrapText(`The pack is whole: each of its ${count(pack.files)} files has the SHA-256 in its manifest.`),
		wrapText(`${agreement(packed)} Made again by the packed program, with Node ${node} on ${platform}.`),
		...differenceLines(packed, 'again'),
	];
	if (isSameProgram) lines.push('', wrapText('This program is the packed one.'));
	else if (current !== null) {
		lines.push('', heading('With this program instead'));
		if ('refused' in current) lines.push(wrapText(`It makes no figures of the packed scenario: ${current.refused}`));
		else lines.push(wrapText(`Version ${current.version}. ${agreement(current)}`), ...differenceLines(current, 'this'));
	}
	return `${lines.join('\n')}\n`;
}

function agreement({ figures, differences, sameDrives, sameBytes }: MadeAgain): string {
	if (differences.length > 0) {
		const verdicts = differences.some(({ path }) => /^verdict\.\w+\.decision$/.test(path))
			? 'A verdict differs'
			: 'No verdict differs';
		return `${count(differences.length)} of ${count(figures)} figures differ${slightWords(differences)}. ${verdicts}.`;
	}
	const all = `All ${count(figures)} figures are the same`;
	if (sameBytes) return `${all}, and the result files byte by byte.`;
	return sameDrives ? `${all}, and so is every drive behind them.` : `${all}, but not every drive behind them.`;
}

/** How many of them are no more than rounding. */
function slightWords(differences: readonly FigureDifference[]): string {
	const slight = differences.filter((one) => relative(one) < slightest.size).length;
	if (slight === 0) return '';
	const isEach = slight === differences.length;
	return `, ${isEach ? 'each' : count(slight)} by less than ${slightest.words} of ${isEach || slight === 1 ? 'its' : 'their'} size`;
}

function differenceLines({ differences, points }: MadeAgain, who: string): string[] {
	if (differences.length === 0) return [];
	const lines: string[] = ['', columns('', 'packed', who, 'difference')];
	let group = '';
	for (const difference of farthest(differences)) {
		const [of, name] = placeOf(difference.path, points);
		if (of !== group && of !== '') lines.push(of);
		group = of;
		lines.push(
			columns(`${of === '' ? '' : '  '}${name}`, shown(difference.first), shown(difference.second), change(difference)),
		);
	}
	if (differences.length > mostShown) {
		lines.push(`and ${count(differences.length - mostShown)} more; --json FILE lists all`);
	}
	return lines;
}

/** Those that are farthest apart for their size, in the order of the file. */
function farthest(differences: readonly FigureDifference[]): readonly FigureDifference[] {
	const sizes = differences.map(relative).sort((one, other) => other - one);
	const least = sizes[mostShown - 1] ?? 0;
	return differences.filter((one) => relative(one) >= least).slice(0, mostShown);
}

/** Difference over the larger of the two; infinite where they are no numbers. */
function relative({ first, second }: FigureDifference): number {
	if (typeof first !== 'number' || typeof second !== 'number') return Number.POSITIVE_INFINITY;
	const size = Math.abs(second - first) / Math.max(Math.abs(first), Math.abs(second));
	return Number.isNaN(size) ? Number.POSITIVE_INFINITY : size;
}

/** What a figure is of, in words, and its name within it as result files have it. */
function placeOf(path: string, points: readonly string[]): readonly [of: string, name: string] {
	const at = /^points\[(\d+)\]\.(?:choices\.(halfBus|virtualNeutral)|(paired))\.(.+)$/.exec(path);
	if (!at) return ['', path];
	const [, point = '0', choice, , name = ''] = at;
	const of = choice === undefined ? 'in pairs' : choiceWords[choice as keyof typeof choiceWords];
	return [`${points[Number(point)] ?? `point ${point}`}, ${of}`, name];
}

const columns = (label: string, first: string, second: string, third: string): string =>
	padEnd(label.length > 35 ? `…${label.slice(-34)}` : label, 36) +
	padStart(first, 15) +
	padStart(second, 15) +
	padStart(third, 14);

function shown(figure: Figure): string {
	if (typeof figure === 'number') return numberText(figure, 8);
	const text = figure === undefined ? 'none' : String(figure);
	return text.length > 14 ? `${text.slice(0, 13)}…` : text;
}

function change({ first, second }: FigureDifference): string {
	if (typeof first !== 'number' || typeof second !== 'number') return '';
	return Number.isFinite(second - first) ? numberText(second - first, 3) : '';
}

/** So many digits, small numbers with a power of ten, so that a column holds them. */
function numberText(value: number, digits: number): string {
	const isSmall = value !== 0 && Math.abs(value) < 1e-3;
	const text = isSmall ? value.toExponential(Math.min(digits, 7) - 1) : String(Number(value.toPrecision(digits)));
	return text.replace(/^-/, '−').replace('e-', 'e−');
}
