import { scenarioDigest } from '../../shared/scenario/digest.ts';
import type { Problem, Scenario } from '../../shared/scenario/scenario.ts';
import { version } from '../../shared/study/version.ts';
import { count } from '../../shared/words/figures.ts';
import type { WorkerHost } from '../host/worker-handle.ts';
import { text } from './common-options.ts';
import { type OpenJournal, openJournal } from './journal-file.ts';

export const journalOption = text(
	'FILE',
	'Keeps finished drives in this file as the study goes on. Interrupted or killed at any moment, the same command goes on from there, and its figures are those of a study never interrupted.',
	null,
	4096,
);

/** Opens the journal named for a study of the scenario, with what there is to say of it. */
export async function openedJournal(
	path: string,
	{ scenario, seed, units }: { readonly scenario: Scenario; readonly seed: string; readonly units: number },
	host: WorkerHost,
): Promise<
	{ readonly journal: OpenJournal; readonly remarks: readonly string[] } | { readonly problems: readonly Problem[] }
> {
	const head = {
		version,
		engine: host.engineDigest?.() ?? '',
		scenario: scenario.name,
		scenarioDigest: await scenarioDigest(scenario),
		seed,
	};
	const opened = openJournal(path, head, scenario.points.length);
	if ('problem' in opened) return { problems: [{ path: '--journal', value: path, message: opened.problem }] };
	const { journal } = opened;
	const kept = journal.drives(units);
	const taken = kept > 0 ? [`${count(kept)} of ${count(units)} drives are taken from it.`] : [];
	const remarks = [...journal.remarks, ...taken];
	return { journal, remarks: remarks.length > 0 ? [`Journal ${path}: ${remarks.join(' ')}`] : [] };
}
