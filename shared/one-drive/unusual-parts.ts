import type { Deviations } from '../drive/build-drive.ts';
import { canAct } from '../parameters/acting-parts.ts';
import type { NumberRecord, Tolerance } from '../parameters/parameter.ts';
import { parameters } from '../parameters/parameters.ts';
import { deviate } from '../sampling/deviate.ts';
import type { Scenario, Values } from '../scenario/scenario.ts';

/** One part of a built drive against what was to be expected of it. */
export interface BuiltPart {
	readonly record: NumberRecord;
	/** Which of its instances, from 0. */
	readonly instance: number;
	readonly nominal: number;
	readonly value: number;
	/** Relative, or in the parameter's unit. */
	readonly deviation: number;
	readonly scale: Tolerance['scale'];
	/** Whether its deviation can show in this drive. */
	readonly acts: boolean;
	/** Share of such parts that lie as far out or farther, on either side. */
	readonly asFarOut: number;
}

const parts = parameters.filter((record): record is NumberRecord => record.kind !== 'choice' && record.role === 'part');

/**
 * Every part that may vary, the most unusual first.
 *
 * @param values that the drive has and the conditions it meets, by id
 */
export function unusualParts(scenario: Scenario, values: Values, deviations: Deviations): readonly BuiltPart[] {
	return parts
		.flatMap((record) => {
			const tolerance = scenario.tolerances[record.id];
			if (!tolerance || !varies(tolerance)) return [];
			const spread = tolerance;
			const nominal = values[record.id] as number;
			const given = deviations[record.id] ?? 0;
			const acts = canAct(record.id, values);
			return Array.from({ length: record.instances }, (_, instance): BuiltPart => {
				const deviation = typeof given === 'number' ? given : (given[instance] ?? 0);
				const value = spread.scale === 'relative' ? nominal * (1 + deviation) : nominal + deviation;
				const { scale } = spread;
				return { record, instance, nominal, value, deviation, scale, acts, asFarOut: tailShare(spread, deviation) };
			});
		})
		.sort((one, other) => one.asFarOut - other.asFarOut);
}

const varies = ({ distribution, lot, mismatch }: Tolerance): boolean =>
	distribution === 'measured' || lot > 0 || mismatch > 0;

/** Equally likely values that stand for the deviation of the narrower of lot and mismatch. */
const narrowPoints = 64;
/** Halvings of a uniform: 2⁻³⁰ of its range. */
const halvings = 30;

/** Share of parts at least as far to either side of the median: 2·min(F, 1 − F), F over lot and mismatch as they are drawn. */
export function tailShare(tolerance: Tolerance, deviation: number): number {
	const isMeasured = tolerance.distribution === 'measured';
	const lot = isMeasured ? 0 : tolerance.lot;
	// a gap is picked out of the mismatch where there is one (shared/sampling/draw-parts.ts)
	const ofLot: Tolerance =
		tolerance.distribution === 'gapped' && tolerance.mismatch > 0
			? { ...tolerance, distribution: 'normal' }
			: tolerance;
	const own = { of: tolerance, width: tolerance.mismatch };
	const common = { of: ofLot, width: lot };
	// points at the middle of their shares do not reach the limits: that error shall be the narrower's
	const [wide, narrow] = lot > tolerance.mismatch ? [common, own] : [own, common];
	const points = narrow.width > 0 ? narrowPoints : 1;
	let below = 0;
	let upTo = 0;
	for (let i = 0; i < points; i++) {
		const taken = narrow.width > 0 ? deviate(narrow.of, narrow.width, (i + 0.5) / points) : 0;
		const left = tolerance.scale === 'relative' ? (deviation - taken) / (1 + taken) : deviation - taken;
		below += share(wide, (made) => made < left);
		upTo += share(wide, (made) => made <= left);
	}
	return Math.min(1, (2 * Math.min(upTo, points - below)) / points);
}

/** Share of deviates for which `holds`, which must hold up to some value and not beyond. */
function share(
	{ of, width }: { readonly of: Tolerance; readonly width: number },
	holds: (made: number) => boolean,
): number {
	if (width === 0 && of.distribution !== 'measured') return holds(0) ? 1 : 0;
	let low = 0;
	let high = 1;
	const last = 1 - 2 ** -53;
	if (holds(deviate(of, width, last))) return 1;
	if (!holds(deviate(of, width, 0))) return 0;
	for (let i = 0; i < halvings; i++) {
		const middle = (low + high) / 2;
		if (holds(deviate(of, width, middle))) low = middle;
		else high = middle;
	}
	return (low + high) / 2;
}
