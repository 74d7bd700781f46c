import { sha256 } from '../scenario/digest.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { UnitRecord } from '../study/point-change.ts';
import type { StudyResult } from '../study/result.ts';
import { jsonText } from './json-text.ts';
import { type StoredUnits, storeUnits } from './unit-columns.ts';

/** What a file holds beside the figures, since version 2. */
export interface ResultSources {
	/** As it was resolved, every default filled in. */
	readonly scenario: Scenario;
	/** Null where they are too many for a file. */
	readonly units: StoredUnits | null;
}

/** A study's result as a file of the current version: the figures, what they were made from, and a digest over all of it. */
export async function resultFileText(result: StudyResult, { plan, study }: UnitRecord): Promise<string> {
	const sources: ResultSources = { scenario: plan.scenario, units: storeUnits(study) };
	const contents = { ...result, ...sources };
	return `${jsonText({ ...contents, digest: await contentsDigest(contents) })}\n`;
}

/** SHA-256 (hex) of the contents as `jsonText` writes them: of what they say, not of how their lines are broken. */
export const contentsDigest = (contents: object): Promise<string> =>
	sha256(new TextEncoder().encode(jsonText(contents)));
