import { nearestPreferred, preferredValues, type Series } from './preferred-series.ts';

/** The next value made in the series above (`step` 1) or below (−1) a positive value. */
export function nextPreferred(value: number, series: Series, step: 1 | -1): number {
	const near = nearestPreferred(value, series);
	// nine digits, as the series forgives the last bit of a computed value
	const beyond = (candidate: number): boolean => step * (candidate / value - 1) > 1e-9;
	if (beyond(near)) return near;
	const [mantissa = '1', exponent = '0'] = near.toExponential().split('e');
	const values = preferredValues(series);
	const next = values.indexOf(Number(mantissa)) + step;
	const decade = Number(exponent) + (next < 0 ? -1 : next >= values.length ? 1 : 0);
	return Number(`${values[(next + values.length) % values.length]}e${decade}`);
}
