import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { leanScenario } from './lean-scenario.ts';
import { runChild } from './run-child.ts';
import { type Spread, spread } from './spread.ts';

/** Seconds on the clock, process start included, but for the ratios. */
export interface StartResult {
	/** Node with nothing to do: what of the others is not ours. */
	readonly node: Spread;
	/** `study` of 1,000 units at one operating point and one start. */
	readonly study: Spread;
	readonly studyOverNode: Spread;
	/** `npm start`, installed and built before, until its comparison is printed and the page served. */
	readonly start: Spread;
	readonly startOverNode: Spread;
}

export const startLimits = { study: 0.8, start: 4 } as const;

/** @param startProgram what `npm start` runs, all of it built */
export async function startBench(
	studyProgram: string,
	startProgram: string,
	scenario: string,
	repetitions: number,
): Promise<StartResult> {
	const folder = mkdtempSync(join(tmpdir(), 'anglespread-bench-'));
	try {
		const file = join(folder, 'lean.json');
		writeFileSync(file, leanScenario(readFileSync(scenario, 'utf8')));
		const study = () => runChild([studyProgram, file, '--units', '1000']);
		const start = () => runChild([startProgram], { until: /The page is at / });
		// once for the file system
		await study();
		const times = { node: [] as number[], study: [] as number[], start: [] as number[] };
		for (let n = 0; n < repetitions; n += 1) {
			times.node.push((await runChild(['--eval', '0'])).seconds);
			times.study.push((await study()).seconds);
			times.start.push((await start()).seconds);
		}
		const overNode = (list: readonly number[]): Spread =>
			spread(list.map((seconds, n) => seconds / (times.node[n] as number)));
		return {
			node: spread(times.node),
			study: spread(times.study),
			studyOverNode: overNode(times.study),
			start: spread(times.start),
			startOverNode: overNode(times.start),
		};
	} finally {
		rmSync(folder, { recursive: true });
	}
}
