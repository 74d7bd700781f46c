import type { PerChoice } from '../drive/drive.ts';
import type { OperatingPoint, Scenario, Values } from '../scenario/scenario.ts';
import type { StudyPlan } from '../study/plan.ts';

/** How one run of a study's drives differs from the study itself; what is absent stays as the study has it. */
export interface Variant {
	/** Values of other parameters than conditions. */
	readonly values?: Values;
	readonly points?: readonly OperatingPoint[];
	/** As in a plan: the indices that the points' moments are drawn under. */
	readonly pointKeys?: readonly number[];
	/** Seconds. */
	readonly compensation?: PerChoice<number>;
	/**
	 * Degrees by which the firmware commutates ahead of the scenario's advance, to make up for an error that does not
	 * change with speed. Angle errors stay measured against the scenario's advance.
	 */
	readonly advanceTrim?: PerChoice<number>;
}

/** Variants of one study: all of them take the same drives, moments and noise. */
export interface VariantList {
	readonly plan: StudyPlan;
	readonly variants: readonly Variant[];
}

/** The scenario that a variant makes. */
export function variantScenario(scenario: Scenario, { values, points }: Variant): Scenario {
	const changed = values ? { ...scenario, values: { ...scenario.values, ...values } } : scenario;
	return points ? { ...changed, points, referencePoint: 0 } : changed;
}

/** The plan that a variant makes, its advance trim excepted. */
export function variantPlan({ plan, variants }: VariantList, place: number): StudyPlan {
	const variant = variants[place];
	if (variant === undefined) throw new RangeError(`variant ${place} of ${variants.length}`);
	const pointKeys = variant.pointKeys ?? plan.pointKeys;
	return {
		scenario: variantScenario(plan.scenario, variant),
		seed: plan.seed,
		compensation: variant.compensation ?? plan.compensation,
		...(pointKeys && { pointKeys }),
	};
}
