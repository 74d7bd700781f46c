import type { PerChoice } from '../drive/drive.ts';
import type { Draws } from '../sampling/draws.ts';
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
	/** How the units' parts are drawn; independently of one another if not given. */
	readonly draws?: Draws;
	/**
	 * Index that each point's moments and noise are drawn under, where it is not its own: points with the same key
	 * meet the same moments, and a point lifted out of a scenario keeps those it had there.
	 */
	readonly pointKeys?: readonly number[];
}
