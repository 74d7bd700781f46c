import { count } from '../../../shared/words/figures.ts';
import type { Spread } from '../spread.ts';
import type { Weighed } from './memory-growth.ts';
import { memoryGrowth, type PageBenchResult, pageLimits } from './page-result.ts';

/** The page's figures against their limits, one line each, at most 80 columns. */
export function pageReport(result: PageBenchResult): string {
	const { size, memory } = result;
	const lines = [
		'The built page, in a browser of 1440 × 900',
		row('', 'measured', 'limit', ''),
		timed('first answer after load', result.firstAnswer, pageLimits.firstAnswer),
		row('  counted from the start of the visit', milliseconds(result.firstAnswerFromStart.median), '', ''),
		timed(`preview after a key, median of ${size.edits}`, result.preview, pageLimits.preview),
		row(
			`longest task, ${count(size.units)} drives running`,
			milliseconds(result.longestTask),
			milliseconds(pageLimits.longestTask),
			within(result.longestTask, pageLimits.longestTask),
		),
		row('  of it processor time, at most', milliseconds(result.longestTaskProcessor), '', ''),
		row(
			'initial script, gzipped',
			`${result.initialScript.toFixed(1)} kB`,
			`${pageLimits.initialScript} kB`,
			within(result.initialScript, pageLimits.initialScript),
		),
		...memoryRows(memory),
	];
	return `${lines.join('\n')}\n`;
}

const row = (what: string, measured: string, limit: string, verdict: string): string =>
	`  ${what.padEnd(37)}${measured.padStart(14)}${limit.padStart(10)}  ${verdict}`.trimEnd();

const timed = (what: string, { median }: Spread, limit: number): string =>
	row(what, milliseconds(median), milliseconds(limit), within(median, limit));

/** Growth over the second half of the runs against its limit, and over the first, while the page warms up, without one. */
function memoryRows(memory: readonly Weighed[]): string[] {
	const [first, last] = [memory[0], memory.at(-1)];
	const half = memory.find(({ runs }) => last !== undefined && 2 * runs >= last.runs);
	if (!first || !half || !last) return [];
	const grown = (what: string, of: 'held' | 'resident', isWarm = true): string => {
		const [from, to] = isWarm ? [half, last] : [first, half];
		const growth = memoryGrowth(from, to, of);
		if (!Number.isFinite(growth)) return row(what, 'not told', '', '');
		return row(
			what,
			`${growth < 0 ? '−' : '+'}${Math.abs(100 * growth).toFixed(1)} %, ${to[of].toFixed(0)} MB`,
			isWarm ? `+${100 * pageLimits[of]} %` : '',
			isWarm ? within(growth, pageLimits[of]) : '',
		);
	};
	return [
		grown(`memory held from run ${half.runs} to ${last.runs}`, 'held'),
		grown(`  from run ${first.runs} to ${half.runs}, warming up`, 'held', false),
		grown('  its processes, as the system says', 'resident'),
	];
}

const within = (value: number, limit: number): string => (value <= limit ? 'kept' : 'EXCEEDED');

const milliseconds = (value: number): string => `${value.toFixed(0)} ms`;
