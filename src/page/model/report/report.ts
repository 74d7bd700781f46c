import { computed, signal } from '@preact/signals';
import { type FurtherName, furtherNames } from '../../../../shared/report/ask.ts';
import { type CalculationName, type Calculations, calculationTitles } from '../../../../shared/report/report.ts';
import type { Scenario } from '../../../../shared/scenario/scenario.ts';
import { errorMessage } from '../../../../shared/words/error-message.ts';
import { fileName } from '../file-name.ts';
import type { LongProgress } from '../long-question.ts';
import type { PageModel } from '../page-model.ts';
import { whatIsMissing } from '../whole-result.ts';

/** What a report is of; plain data. */
export interface ReportAsked {
	readonly scenario: Scenario;
	/** The file that it was read from. */
	readonly scenarioText: string;
	readonly study: Calculations['study'];
	/** What is computed for it beside the study. */
	readonly further: readonly FurtherName[];
}

export interface ReportWatch {
	/** Ends it at once; it then rejects. */
	readonly signal: AbortSignal;
	readonly onProgress: (name: CalculationName, progress: LongProgress) => void;
}

type ReportStatus =
	| { readonly state: 'idle'; readonly note: string }
	/** Null while the worst drives are simulated again and the pictures drawn. */
	| { readonly state: 'working'; readonly on: ({ readonly title: string } & LongProgress) | null }
	| { readonly state: 'failed'; readonly message: string };

export type ReportModel = ReturnType<typeof createReport>;

/**
 * The report of the result on show, made when it is wanted.
 *
 * @param make gives the text of its file
 * @param save hands a file to the reader
 */
export function createReport(
	model: Pick<PageModel, 'shown' | 'request' | 'state' | 'inputs' | 'scenario' | 'source'>,
	make: (asked: ReportAsked, watch: ReportWatch) => Promise<string>,
	save: (name: string, text: string) => Promise<void>,
) {
	const status = signal<ReportStatus>({ state: 'idle', note: '' });
	const further = signal<readonly FurtherName[]>([]);
	const missing = whatIsMissing(model);
	let current: AbortController | null = null;

	return {
		status,
		/** Why there can be no report now; '' where there can. */
		obstacle: computed(() => (status.value.state === 'working' ? '' : missing.value)),
		/** For those who listen: what is being computed, and how it ended. */
		heard: computed(() => announcement(status.value)),
		offer: computed(() =>
			furtherNames.map((name) => ({
				name,
				title: calculationTitles[name],
				isChosen: further.value.includes(name),
			})),
		),
		choose: (name: FurtherName, isChosen: boolean) => {
			further.value = furtherNames.filter((one) => (one === name ? isChosen : further.value.includes(one)));
		},
		/** Makes it and hands it over. */
		async save(): Promise<void> {
			const of = model.shown.value;
			if (!of || missing.value !== '' || current) return;
			const { scenario, seed, units, result } = of;
			const name = `${fileName(model)}-report.html`;
			const own = new AbortController();
			current = own;
			status.value = { state: 'working', on: null };
			try {
				const text = await make(
					{
						scenario,
						scenarioText: model.inputs.text.value,
						study: { asked: { seed, units, until: { rule: 'number' } }, result },
						further: further.value,
					},
					{
						signal: own.signal,
						onProgress: (calculation, progress) => {
							const isWhole = progress.finished + progress.failed >= progress.asked;
							const on = isWhole ? null : { title: calculationTitles[calculation], ...progress };
							if (!own.signal.aborted) status.value = { state: 'working', on };
						},
					},
				);
				if (own.signal.aborted) throw own.signal.reason;
				await save(name, text);
				status.value = { state: 'idle', note: `Saved as ${name}.` };
			} catch (error) {
				status.value = own.signal.aborted
					? { state: 'idle', note: 'Stopped: no report was saved.' }
					: { state: 'failed', message: errorMessage(error) };
			} finally {
				current = null;
			}
		},
		cancel: () => current?.abort(),
	};
}

/** While its worst drives are simulated again and its pictures drawn. */
export const drawing = 'Simulating its worst drives again and drawing …';
export const failureWords = (message: string): string => `It could not be made. ${message}`;

function announcement(status: ReportStatus): string {
	switch (status.state) {
		case 'idle':
			return status.note;
		case 'working':
			return status.on ? `Computing: ${status.on.title}.` : drawing;
		case 'failed':
			return failureWords(status.message);
	}
}
