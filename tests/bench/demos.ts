import { readdirSync, readFileSync } from 'node:fs';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';

/** File names of the demo scenarios in a folder. */
export const demoFiles = (folder: string): string[] =>
	readdirSync(folder).filter((name) => /^(?!.*schema).*\.json$/.test(name));

/** @throws Error where the file is no scenario */
export function demoScenario(path: string): Scenario {
	const reading = readScenario(readFileSync(path, 'utf8'));
	if (!('scenario' in reading)) throw new Error(`${path}: ${JSON.stringify(reading.problems)}`);
	return reading.scenario;
}
