import type { OperatingPoint, Scenario, Values } from './scenario.ts';

/** A numeric parameter's nominal value and how far down and up it can get. */
export interface Reach {
	readonly value: (id: string) => number;
	readonly low: (id: string) => number;
	readonly high: (id: string) => number;
}

/** At an operating point: conditions over their ranges, parts over their tolerances. */
export function pointReach(scenario: Scenario, point: OperatingPoint): Reach {
	const { value } = exactReach({ ...scenario.values, ...point.values });
	const end = (id: string, sign: 1 | -1): number => {
		const spread = point.ranges[id] ?? scenario.tolerances[id];
		if (!spread) return value(id);
		const relative = spread.scale === 'relative';
		const steps = 'halfWidth' in spread ? [spread.halfWidth] : [spread.lot, spread.mismatch];
		if ('measured' in spread && spread.measured) {
			const extreme = sign * Math.max(...spread.measured.map((d) => sign * d));
			return relative ? value(id) * (1 + extreme) : value(id) + extreme;
		}
		return steps.reduce((v, step) => (relative ? v * (1 + sign * step) : v + sign * step), value(id));
	};
	return {
		value,
		low: (id) => Math.min(end(id, -1), end(id, 1)),
		high: (id) => Math.max(end(id, -1), end(id, 1)),
	};
}

/** Values that do not vary. */
export function exactReach(values: Values): Reach {
	const value = (id: string): number => {
		const found = values[id];
		if (typeof found !== 'number') throw new Error(`${id} must be a number here, not ${String(found)}`);
		return found;
	};
	return { value, low: value, high: value };
}
