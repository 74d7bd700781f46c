import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';

/** The first demo's drive at two fast points with short runs: a unit takes about a millisecond. */
export const smallScenarioText = (changes: Readonly<Record<string, unknown>> = {}): string =>
	JSON.stringify({
		name: 'small',
		points: [
			{ name: 'fast', speed: 6000, torque: 0.05 },
			{ name: 'faster', speed: 7000, torque: 0.05 },
		],
		supply: { voltage: { value: 48, range: '5 %' } },
		trial: { starts: 2, warmup: 6, settle: 6, measured: 12 },
		...changes,
	});

export function smallScenario(changes: Readonly<Record<string, unknown>> = {}): Scenario {
	const reading = readScenario(smallScenarioText(changes));
	if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
	return reading.scenario;
}
