import type { Deviations } from '../drive/build-drive.ts';
import type { PerChoice } from '../drive/drive.ts';
import type { Values } from '../scenario/scenario.ts';
import type { StudyPlan } from '../study/plan.ts';

/** One drive of a study: a unit as it stands at one start of one operating point. Plain data. */
export interface DriveRequest {
	readonly plan: StudyPlan;
	readonly unit: number;
	readonly point: number;
	readonly start: number;
	/** A measured board in place of what is drawn; it meets the same noise. */
	readonly board?: BoardValues;
}

export interface BoardValues {
	/** Every parameter by id, conditions included. */
	readonly values: Values;
	readonly deviations: Deviations;
	/** s, for each choice. */
	readonly compensation: PerChoice<number>;
}
