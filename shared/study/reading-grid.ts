import { nominalFigures } from '../scenario/nominal-figures.ts';
import type { Values } from '../scenario/scenario.ts';

/**
 * How far the time between readings alone spreads a crossing, at one operating
 * point's nominal values: electrical degrees, standard deviation of the wait
 * from a crossing anywhere in a PWM period to the next reading. With gaps g that
 * add up to the period T: mean Σg²/2T, mean square Σg³/3T. One reading a period
 * gives T/√12.
 */
export function readingGridSpread(values: Values): number {
	const { duty, period, degreesPerSecond } = nominalFigures(values);
	const readings = Number(values['detection.samples']);
	const window = values['detection.window'];
	const on = Math.min(1, Math.max(0, duty));
	const share = window === 'whole' ? 1 : window === 'on' ? on : 1 - on;
	const turn = degreesPerSecond * period;
	const inner = (share * turn) / readings;
	const outer = turn - (readings - 1) * inner;
	const mean = ((readings - 1) * inner * inner + outer * outer) / (2 * turn);
	const meanSquare = ((readings - 1) * inner * inner * inner + outer * outer * outer) / (3 * turn);
	return Math.sqrt(Math.max(0, meanSquare - mean * mean));
}
