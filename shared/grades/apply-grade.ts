import type { Tolerance } from '../parameters/parameter.ts';
import { nextTighterGrade } from '../parts/tolerance-grades.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { type Grade, nearestOfGrade } from './grade.ts';
import { type AskedGroup, resistorsOf } from './resistor-groups.ts';

/**
 * What of a grade a run takes over. The two effects apart: `nominals` has the
 * purchasable values without any tolerance, `tolerance` the grade's tolerance
 * on the values as designed; `neither` is the board with exact resistors.
 */
export type GradeEffect = 'both' | 'nominals' | 'tolerance' | 'neither';

/** A resistor's value as designed and as it can be bought. */
export interface NominalShift {
	readonly id: string;
	readonly name: string;
	/** Ω */
	readonly designed: number;
	/** Ω */
	readonly purchasable: number;
	/** Relative. */
	readonly shift: number;
}

/** The nominal values that a grade of this group is bought in. */
export function nominalShifts(
	scenario: Scenario,
	group: AskedGroup,
	grade: Pick<Grade, 'series'>,
): readonly NominalShift[] {
	return resistorsOf(group).map(({ id, name }) => {
		const designed = scenario.values[id] as number;
		const purchasable = nearestOfGrade(designed, grade);
		return { id, name, designed, purchasable, shift: purchasable / designed - 1 };
	});
}

/**
 * The scenario with a group's resistors of this grade; all else stays. Draws are
 * shared: a unit's base uniforms hang on seed and unit alone, and the tolerance
 * only scales what is made of them.
 */
export function applyGrade(
	scenario: Scenario,
	group: AskedGroup,
	grade: Grade,
	effect: GradeEffect = 'both',
): Scenario {
	const values: Record<string, number | string> = { ...scenario.values };
	const tolerances: Record<string, Tolerance> = { ...scenario.tolerances };
	const isExact = effect === 'neither' || effect === 'nominals';
	for (const { id, purchasable } of nominalShifts(scenario, group, grade)) {
		if (effect === 'both' || effect === 'nominals') values[id] = purchasable;
		const stated = scenario.tolerances[id];
		if (stated) tolerances[id] = isExact ? exact(stated) : graded(stated, grade);
	}
	return { ...scenario, values, tolerances };
}

const exact = ({ scale, basis }: Tolerance): Tolerance => ({
	scale,
	lot: 0,
	mismatch: 0,
	distribution: 'uniform',
	basis,
});

/** The grade's tolerance in the stated distribution; as stated where it is the same one, so that not a digit moves. */
export function graded(stated: Tolerance, { lot, mismatch }: Pick<Grade, 'lot' | 'mismatch'>): Tolerance {
	if (stated.distribution !== 'measured' && stated.lot === lot && stated.mismatch === mismatch) return stated;
	const tolerance = { scale: stated.scale, lot, mismatch, basis: 'data sheet' } as const;
	if (stated.distribution === 'measured') return { ...tolerance, distribution: 'uniform' };
	if (stated.distribution !== 'gapped') return { ...tolerance, distribution: stated.distribution };
	const gap = nextTighterGrade(mismatch);
	return gap === undefined ? { ...tolerance, distribution: 'normal' } : { ...tolerance, distribution: 'gapped', gap };
}
