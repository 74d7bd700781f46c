import type { PerChoice } from '../drive/drive.ts';
import type { Scenario } from '../scenario/scenario.ts';

/**
 * Everything a worker needs to simulate any unit of a study; plain data, so it
 * can be sent to a worker as it is.
 */
export interface StudyPlan {
	readonly scenario: Scenario;
	/** Not empty. */
	readonly seed: string;
	/** Delay of detection that the firmware assumes, seconds (nominal-delay.ts). */
	readonly compensation: PerChoice<number>;
}
