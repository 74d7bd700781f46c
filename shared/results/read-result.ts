import { scenarioDigest } from '../scenario/digest.ts';
import { shortened } from '../scenario/read-json.ts';
import type { Problem } from '../scenario/scenario.ts';
import type { UnitRecord } from '../study/point-change.ts';
import type { StudyResult } from '../study/result.ts';
import { resultDigest } from '../study/result-digest.ts';
import { resultVersion, resultVersions } from '../study/result-version.ts';
import { restoreInfinities } from './from-version-1.ts';
import { contentsDigest, type ResultSources } from './result-file.ts';
import { studyResultShape } from './result-shape.ts';
import { scenarioShape } from './scenario-shape.ts';
import { object, orNull } from './shape.ts';
import { restoreUnits, storedUnitsShape } from './unit-columns.ts';

export interface KeptResult {
	readonly result: StudyResult;
	/** Scenario of the study and its units; null where the file does not hold them (version 1). */
	readonly scenario: UnitRecord['plan']['scenario'] | null;
	/** The units behind the figures; null where the file does not hold them (version 1, or too many). */
	readonly record: UnitRecord | null;
}

/** A result, or why the file is refused and what to do. */
export type ResultReading = KeptResult | { readonly problems: readonly Problem[] };

/** What helps against damage of every kind. */
const remedy = 'take it again from where it was kept, or run the study again';

const sourcesShape = object<ResultSources>({ scenario: scenarioShape, units: orNull(storedUnitsShape) });

/**
 * Reads a study's result file of this version or an older one. What it says is
 * held against its own digests before anything is made of it. Never throws.
 */
export async function readResult(text: string): Promise<ResultReading> {
	const refuse = (path: string, value: unknown, message: string): ResultReading => ({
		problems: [{ path, value: value === '' ? '' : shortened(value), message }],
	});
	let file: unknown;
	try {
		file = JSON.parse(text);
	} catch {
		return refuse('(file)', '', `is not a result, or is cut short or damaged: it is not JSON; ${remedy}`);
	}
	const { format, formatVersion: version } = (file ?? {}) as { format?: unknown; formatVersion?: unknown };
	if (typeof format === 'string' && format !== 'anglespread-study' && format.startsWith('anglespread-')) {
		return refuse('format', format, 'is of another command; give the file that `study --json` wrote');
	}
	if (format !== 'anglespread-study') {
		return refuse('format', format ?? '', 'is not that of a result; give the file that `study --json` wrote');
	}
	if (typeof version === 'number' && version > resultVersion) {
		const { version: writer } = ((file as { provenance?: unknown }).provenance ?? {}) as { version?: unknown };
		const from = typeof writer === 'string' ? ` (it was written by version ${shortened(writer)})` : '';
		return refuse(
			'formatVersion',
			version,
			`is newer than this program, which reads versions up to ${resultVersion}: read it with a newer program${from}, or run the study again with this one`,
		);
	}
	if (!resultVersions.includes(version as 1)) {
		return refuse(
			'formatVersion',
			version ?? '',
			`is none of ${resultVersions.join(', ')}: the file is damaged; ${remedy}`,
		);
	}
	const { digest, ...contents } = file as { digest?: unknown };
	if (version !== 1 && digest !== (await digestOf(contents))) {
		return refuse('digest', digest ?? '', `does not fit what the file says: it is damaged or was edited; ${remedy}`);
	}
	const wrong = studyResultShape(contents, '') ?? (version === 1 ? null : sourcesShape(contents, ''));
	if (wrong !== null) {
		return refuse(
			wrong.replace(/^\./, ''),
			'',
			`is not what version ${version} of the file has there: it is damaged; ${remedy}`,
		);
	}
	const result = contents as StudyResult;
	if (version === 1) return { result: restoreInfinities(result), scenario: null, record: null };
	return restore(contents as StudyResult & ResultSources, refuse);
}

async function restore(
	{ scenario, units, ...result }: StudyResult & ResultSources,
	refuse: (path: string, value: unknown, message: string) => ResultReading,
): Promise<ResultReading> {
	const { seed, compensation, failures, scenarioDigest: asked, resultDigest: made } = result.provenance;
	if ((await scenarioDigest(scenario)) !== asked || result.points.length !== scenario.points.length) {
		return refuse('scenario', '', `is not the one that the figures are of; ${remedy}`);
	}
	if (units === null) return { result, scenario, record: null };
	const study = restoreUnits(units, scenario.points.length, failures);
	if (study === null || (await resultDigest(study)) !== made) {
		return refuse('units', '', `are not those that the figures are of; ${remedy}`);
	}
	return { result, scenario, record: { plan: { scenario, seed, compensation }, study } };
}

/** Empty for what can be nobody's file. */
async function digestOf(contents: object): Promise<string> {
	try {
		return await contentsDigest(contents);
	} catch {
		return '';
	}
}
