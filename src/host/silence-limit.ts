import { choiceNames } from '../../shared/drive/drive.ts';
import { nominalFigures } from '../../shared/scenario/nominal-figures.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';

/**
 * Long against the longest run of the scenario on a slow machine (10 µs a PWM
 * period and reading), plus 20 s for whatever else the machine is doing.
 */
export function silenceLimitOf({ points, values }: Scenario): number {
	const sectors = ['trial.warmup', 'trial.settle', 'trial.measured'].reduce((sum, id) => sum + Number(values[id]), 0);
	const periods = Math.max(
		...points.map((point) => {
			const { sector, period } = nominalFigures({ ...values, ...point.values });
			return (sectors * sector * Number(values['detection.timeout'])) / period;
		}),
	);
	return 20_000 + 0.01 * periods * choiceNames.length * Number(values['detection.samples']);
}
