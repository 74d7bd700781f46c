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
		grown(`memory held from run ${memory[1]?.runs ?? 0} to ${size.runs}`, memory, 'held'),
		grown('  its processes, as the system counts', memory, 'resident'),
	];
	return `${lines.join('\n')}\n`;
}

const row = (what: string, measured: string, limit: string, verdict: string): string =>
	`  ${what.padEnd(37)}${measured.padStart(14)}${limit.padStart(10)}  ${verdict}`.trimEnd();

const timed = (what: string, { median }: Spread, limit: number): string =>
	row(what, milliseconds(median), milliseconds(limit), within(median, limit));

const grown = (what: string, memory: readonly Weighed[], of: 'held' | 'resident'): string => {
	const growth = memoryGrowth(memory, of);
	if (!Number.isFinite(growth)) return row(what, 'not told', '', '');
	const sign = growth < 0 ? '−' : '+';
	const megabytes = (memory.at(-1)?.[of] ?? Number.NaN).toFixed(0);
	return row(
		what,
		`${sign}${(100 * Math.abs(growth)).toFixed(0)} %, ${megabytes} MB`,
		`+${100 * pageLimits[of]} %`,
		within(growth, pageLimits[of]),
	);
};

const within = (value: number, limit: number): string => (value <= limit ? 'kept' : 'EXCEEDED');

const milliseconds = (value: number): string => `${value.toFixed(0)} ms`;
