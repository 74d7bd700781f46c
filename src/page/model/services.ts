import type { ChartTheme } from '../../../shared/charts/theme.ts';
import type { PerChoice } from '../../../shared/drive/drive.ts';
import type { Problem, Scenario } from '../../../shared/scenario/scenario.ts';
import type { DriveNear } from '../../../shared/study/drives-near.ts';
import type { PointChange } from '../../../shared/study/point-change.ts';
import type { StudyResult } from '../../../shared/study/result.ts';
import type { RecordTicket } from '../../host/record-shelf.ts';
import type { ComparisonRequest } from '../../host/run-comparison.ts';
import type { Preview as PreviewWithUnits } from '../../host/run-preview.ts';
import type { Notebook } from './fields.ts';
import type { KeptStore } from './kept/kept-store.ts';
import type { Address } from './route.ts';
import type { ScenarioSource } from './scenario-source.ts';
import type { StudyInputs } from './study-inputs.ts';

/** What the model needs of the world around it; tests give their own. */
export interface Services {
	/** At least one; the first is shown at load. */
	readonly demos: readonly ScenarioSource[];
	readonly read: (text: string) => Reading;
	/** Resolves with what finished, also when it was interrupted; rejects where nothing could be worked out. */
	readonly study: (
		request: StudyRequest,
		watch: StudyWatch,
	) => Promise<{ readonly result: StudyResult; readonly record: RecordTicket }>;
	/** Quick figures of one operating point; null where nothing was finished. */
	readonly preview: (request: PreviewRequest, watch: PreviewWatch) => Promise<Preview | null>;
	/** The same units of several scenarios at one point; null where it was cut short or a nominal drive failed. */
	readonly compare: (
		request: Omit<ComparisonRequest, 'signal' | 'stop' | 'onProgress'>,
		watch: Required<Pick<ComparisonRequest, 'signal' | 'stop' | 'onProgress'>>,
	) => Promise<readonly RecordTicket[] | null>;
	/** What changed from one study to another at a point; null where nothing can be compared. */
	readonly pointChange: (before: PlaceOnShelf, after: PlaceOnShelf) => Promise<PointChange | null>;
	/** The drives of a study that are nearest to an angle error at a point; null where its units are gone. */
	readonly drivesNear: (
		place: PlaceOnShelf,
		where: { readonly angle: number; readonly most: number },
	) => Promise<PerChoice<readonly DriveNear[]> | null>;
	/** Where the page is. */
	readonly address: Address;
	/** Colours and type of the charts, read when they are first wanted. */
	readonly theme: () => ChartTheme;
	/** Milliseconds from any origin. */
	readonly now: () => number;
	/** Where the views' own fields are kept; nowhere if not given. */
	readonly fields?: Notebook;
	/** Where the longer questions' answers are kept, opened when it is first wanted; nowhere if not given. */
	readonly store?: () => Promise<KeptStore>;
}

/** A preview as the page has it: the units behind it stay with the engine. */
export interface Preview extends Omit<PreviewWithUnits, 'record'> {
	readonly record: RecordTicket;
}

/** The units behind some figures, at one of their points. */
export interface PlaceOnShelf {
	readonly record: RecordTicket;
	readonly point: number;
}

export type Reading = { readonly scenario: Scenario } | { readonly problems: readonly Problem[] };

export interface StudyRequest extends StudyInputs {
	readonly scenario: Scenario;
}

export interface PreviewRequest extends StudyRequest {
	/** Index of the operating point. */
	readonly point: number;
}

export interface PreviewWatch {
	/** Ends it at once. */
	readonly signal: AbortSignal;
	/** Ends it gently: something newer is asked. */
	readonly stop: AbortSignal;
	readonly onPartial: (preview: Preview) => void;
}

export interface StudyWatch {
	/** Ends it at once, with what finished. */
	readonly signal: AbortSignal;
	/** Ends it gently: something newer is asked, and nobody wants what finished. */
	readonly stop: AbortSignal;
	readonly onProgress: (progress: { readonly finished: number; readonly failed: number }) => void;
	/** Takes the figures so far, now and then. */
	readonly onPartial: (result: StudyResult, units?: RecordTicket) => void;
}

/** Figures on show, with what they were asked with. */
export interface Shown extends StudyRequest {
	readonly result: StudyResult;
	/** The units behind the figures; figures that were kept in a file or by the browser have none. */
	readonly record?: RecordTicket | undefined;
}

/** A preview with what it was asked with. */
export interface Previewed extends StudyRequest {
	readonly pointIndex: number;
	readonly preview: Preview;
}
