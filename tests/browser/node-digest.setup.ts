import type { TestProject } from 'vitest/node';
import { emptyStudy, mergeShard } from '../../shared/study/merge.ts';
import { nominalCompensation } from '../../shared/study/nominal-delay.ts';
import { resultDigest } from '../../shared/study/result-digest.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { browserStudy } from './browser-study.ts';

declare module 'vitest' {
	interface ProvidedContext {
		nodeDigest: string;
	}
}

/** Runs the study of worker.browser.test.ts in Node, so that the browser can compare. */
export default async function provideNodeDigest(project: TestProject): Promise<void> {
	const { scenario, seed, units } = browserStudy;
	const { compensation } = nominalCompensation(scenario);
	const study = emptyStudy(units, scenario.points.length);
	mergeShard(study, runShard({ scenario, seed, compensation }, 0, units));
	project.provide('nodeDigest', await resultDigest(study));
}
