import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { leanScenario } from './lean-scenario.ts';
import { runChild } from './run-child.ts';

/** One size of a study. */
export interface Grown {
	readonly units: number;
	/** On the clock, process start included. */
	readonly seconds: number;
	/**
	 * Processor time of a further unit, s: from this study and the one before, or that of a single unit. What starting and
	 * compiling take is in the first, and what other programs on the machine take is in none.
	 */
	readonly unitProcessor: number;
	/** Most memory that the process held resident, bytes. */
	readonly memory: number;
}

/** How many times as much a further unit of the largest study may take as one between the two smallest, to be called flat. */
export const flatness = 1.1;

/** What a study of a million units of one point, both choices, is to stay under, bytes. */
export const memoryLimit = 512e6;

/** The shortest runs that there are, so that what grows is the number of units. */
const shortest = { warmup: 6, settle: 0, measured: 6 };

/** Studies of the first demo's last point, one start, shortest runs: 10³ units, 10⁴, … up to `most`, each once. */
export async function growthBench(
	studyProgram: string,
	scenario: string,
	most: number,
	say: (words: string) => void,
): Promise<readonly Grown[]> {
	const folder = mkdtempSync(join(tmpdir(), 'anglespread-bench-'));
	try {
		const file = join(folder, 'lean.json');
		writeFileSync(file, leanScenario(readFileSync(scenario, 'utf8'), shortest));
		const study = (units: number) => runChild([studyProgram, file, '--units', String(units)], { weighed: true });
		await study(1);
		let last = { units: 1, processor: (await study(1)).processor };
		const grown: Grown[] = [];
		for (let units = 1000; units <= most; units *= 10) {
			say(`studying ${units} short-run drives …`);
			const { seconds, memory, processor } = await study(units);
			grown.push({ units, seconds, unitProcessor: (processor - last.processor) / (units - last.units), memory });
			last = { units, processor };
		}
		return grown;
	} finally {
		rmSync(folder, { recursive: true });
	}
}
