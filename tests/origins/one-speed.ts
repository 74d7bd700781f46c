import type { Tolerance } from '../../shared/parameters/parameter.ts';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';

/**
 * The first demo's drive at 3000 rev/min and 24 V without ripple, short runs.
 * Nothing varies but the parts named and the moment of the start.
 *
 * @param mismatch half-width of each part's own uniform deviation, by id, in its tolerance's scale
 */
export function oneSpeed(
	mismatch: Readonly<Record<string, number>>,
	trial: Readonly<Record<string, number>> = { warmup: 6, settle: 0, measured: 6, starts: 1 },
): Scenario {
	const reading = readScenario(
		JSON.stringify({
			name: 'one speed',
			points: [{ name: 'rated', speed: { value: 3000, range: 0 }, torque: 0.1 }],
			supply: {
				voltage: { value: 24, range: 0 },
				rippleAmplitude: { value: 0, range: 0 },
			},
			detection: { compensation: '78 µs' },
			trial,
		}),
	);
	if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
	const { scenario } = reading;
	const tolerances = Object.entries(scenario.tolerances).map(([id, tolerance]): [string, Tolerance] => [
		id,
		{ ...tolerance, distribution: 'uniform', lot: 0, mismatch: mismatch[id] ?? 0 },
	]);
	return { ...scenario, tolerances: Object.fromEntries(tolerances) };
}
