import type { Scenario } from '../scenario/scenario.ts';
import type { StudyColumns } from './merge.ts';

/** Where figures are wanted: one operating point of a study. */
export interface PointPlace {
	readonly scenario: Scenario;
	readonly study: StudyColumns;
	/** Indices of the finished units, rising. */
	readonly finished: Uint32Array;
	readonly point: number;
	/** Confidence level of every interval. */
	readonly level: number;
	/** Of each bootstrap. */
	readonly resamples: number;
}
