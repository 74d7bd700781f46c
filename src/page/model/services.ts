import type { ChartTheme } from '../../../shared/charts/theme.ts';
import type { Problem, Scenario } from '../../../shared/scenario/scenario.ts';
import type { StudyResult } from '../../../shared/study/result.ts';
import type { Address } from './route.ts';
import type { ScenarioSource } from './scenario-source.ts';
import type { StudyInputs } from './study-inputs.ts';

/** What the model needs of the world around it; tests give their own. */
export interface Services {
	/** At least one; the first is shown at load. */
	readonly demos: readonly ScenarioSource[];
	readonly read: (text: string) => Reading;
	/** Resolves with what finished, also when it was interrupted; rejects where nothing could be worked out. */
	readonly study: (request: StudyRequest, watch: StudyWatch) => Promise<StudyResult>;
	/** Where the page is. */
	readonly address: Address;
	/** Colours and type of the charts, read when they are first wanted. */
	readonly theme: () => ChartTheme;
	/** Milliseconds from any origin. */
	readonly now: () => number;
}

export type Reading = { readonly scenario: Scenario } | { readonly problems: readonly Problem[] };

export interface StudyRequest extends StudyInputs {
	readonly scenario: Scenario;
}

export interface StudyWatch {
	readonly signal: AbortSignal;
	readonly onProgress: (progress: { readonly finished: number; readonly failed: number }) => void;
	/** Takes the figures so far, now and then. */
	readonly onPartial: (result: StudyResult) => void;
}

/** Figures on show, with what they were asked with. */
export interface Shown extends StudyRequest {
	readonly result: StudyResult;
}
