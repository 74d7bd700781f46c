import { formatQuantity } from '../parameters/format-quantity.ts';
import type { NumberRecord } from '../parameters/parameter.ts';
import type { Scenario } from '../scenario/scenario.ts';

/** An axis as it would be written, in parts. */
export interface WrittenAxis {
	readonly from: string;
	readonly to: string;
	readonly steps: string;
	readonly isLogarithmic: boolean;
}

/** Values that a picture shows well and a wait allows. */
const usualSteps = 9;

/**
 * The values one would look at first: around what the scenario states, at all
 * its points for a condition, in steps of equal ratio where nothing is below
 * zero; whole numbers one by one.
 */
export function usualAxis(record: NumberRecord, scenario: Scenario, steps = usualSteps): WrittenAxis {
	const { id, unit, min, max, role, kind, allowed } = record;
	const stated = (
		role === 'condition' ? scenario.points.map(({ values }) => values[id]) : [scenario.values[id]]
	).filter((value) => typeof value === 'number');
	const [lowest, highest] = [Math.min(...stated), Math.max(...stated)];
	const clamp = (value: number): number => Math.min(max, Math.max(min, value));
	const written = (from: number, to: number, count: number, isLogarithmic = false): WrittenAxis => ({
		from: formatQuantity(from, unit),
		to: formatQuantity(to, unit),
		steps: String(count),
		isLogarithmic,
	});
	if (allowed) {
		const even = evenStart(allowed);
		return written(even[0] ?? min, even.at(-1) ?? max, even.length);
	}
	if (kind === 'integer') {
		const from = Number.isFinite(lowest) ? Math.max(min, Math.floor(lowest / 2)) : min;
		const step = Math.max(1, Math.ceil((Math.min(max, 2 * Math.max(1, highest)) - from) / (steps - 1)));
		const count = Math.min(steps, Math.floor((max - from) / step) + 1);
		return written(from, from + step * (count - 1), count);
	}
	if (stated.length === 0) return written(min, max, steps);
	if (lowest > 0) {
		const isAlone = lowest === highest;
		const from = clamp(rounded(lowest * (isAlone ? 0.5 : 0.6)));
		const to = clamp(rounded(highest * (isAlone ? 2 : 1.2)));
		return written(from, to, steps, from > 0);
	}
	const reach = reachOf(record, scenario);
	const centre = lowest === highest ? lowest : (lowest + highest) / 2;
	const half = (highest - lowest) / 2 + reach;
	return written(clamp(rounded(centre - half)), clamp(rounded(centre + half)), steps);
}

/** Three times the tolerance of a part that is nominally nothing; else a tenth of what is allowed. */
function reachOf({ id, min, max }: NumberRecord, { tolerances }: Scenario): number {
	const tolerance = tolerances[id];
	const spread = tolerance?.scale === 'absolute' ? 3 * (tolerance.lot + tolerance.mismatch) : 0;
	return spread > 0 ? spread : (max - min) / 10;
}

/** As many of the first values as lie in equal steps. */
function evenStart(values: readonly number[]): readonly number[] {
	const step = (values[1] ?? 0) - (values[0] ?? 0);
	const end = values.findIndex((value, i) => i > 0 && value - (values[i - 1] as number) !== step);
	return end < 0 ? values : values.slice(0, end);
}

const rounded = (value: number): number => Number(value.toPrecision(2));
