import { choiceVerdicts } from './choice-verdict.ts';
import { comparisonSentence } from './comparison-sentence.ts';
import { confidenceLevel as level } from './confidence-level.ts';
import { failuresInOrder, finishedUnits, type StudyColumns } from './merge.ts';
import { passingPairs } from './passing-pairs.ts';
import type { StudyPlan } from './plan.ts';
import { pointResult } from './point-result.ts';
import type { StudyResult } from './result.ts';
import { resultVersion } from './result-version.ts';
import { stoppingOutcome } from './stopping.ts';
import type { StoppingRule } from './stopping-rule.ts';
import { requirementOf, unitJudge } from './unit-passes.ts';
import { requirementSentence } from './verdict-sentence.ts';
import { version } from './version.ts';

const verdictMethods = {
	fixed:
		'exact one-sided Clopper–Pearson limits on the passing share, drives that could not be simulated counted against either decision',
	sequential:
		'confidence sequence for the passing share (beta-binomial mixture), which holds at every look; drives that could not be simulated counted against either decision',
};

const methods = {
	'difference in passing shares': "McNemar's exact test; interval by square-and-add for pairs (Newcombe)",
	'computed rates':
		'exact chances of every sector, given its noise-free inputs and Gaussian, independent readings; skewness-corrected interval over drives, none where fewer than 100 carry the rate',
	'ratio of rates': 'bootstrap over drives, 2000 resamples',
	'intervals that hold 95 % of drives':
		'order statistics, probabilistically symmetric and shortest (JCGM 101:2008, 7.7)',
	'rates per sector':
		'ratio of events to sectors, drives as clusters: gamma limits of so many clusters, the upper one the nearer to a Student limit corrected for skewness the larger they are',
	'rates without an event': 'exact one-sided Clopper–Pearson bound on the share of drives affected',
	'quantiles over drives': 'order statistics, exact, free of any distribution',
	'difference in pairs': 'median of half-bus minus virtual neutral on the same drives, order-statistic interval',
	'better choice': 'exact two-sided sign test over drives',
	'quantiles of commutations': 'pooled counts in bins of 0.01°, no interval: sectors of one drive are not independent',
};

interface Surroundings {
	readonly scenarioDigest: string;
	readonly resultDigest: string;
	/** True where the study was cut short. */
	readonly partial: boolean;
	readonly warnings: readonly string[];
	/** What was to end the study, and its ceiling; the number of units if not given. */
	readonly stopping?: { readonly rule: StoppingRule; readonly ceiling: number } | undefined;
}

/** The study's figures from its columns. Units count in the order of their index, so that no digit hangs on how they were shared out. */
export function summarise(plan: StudyPlan, study: StudyColumns, surroundings: Surroundings): StudyResult {
	const { scenario, seed, compensation } = plan;
	const finished = finishedUnits(study);
	const failures = failuresInOrder(study);
	const { rule, ceiling } = surroundings.stopping ?? { rule: { rule: 'number' }, ceiling: study.units };
	const isSequential = rule.rule === 'decided';
	// figures on the way have no digest, and are not waited for
	const resamples = surroundings.resultDigest === '' ? 200 : 2000;
	const requirement = requirementOf(scenario);
	const judge = unitJudge(scenario);
	const verdict = choiceVerdicts(scenario, study, isSequential);
	const comparison = passingPairs(
		finished.length,
		(place, choice) => judge.passes(study.columns, finished[place] as number, choice),
		level,
	);
	return {
		format: 'anglespread-study',
		formatVersion: resultVersion,
		provenance: {
			version,
			seed,
			scenario: scenario.name,
			scenarioDigest: surroundings.scenarioDigest,
			resultDigest: surroundings.resultDigest,
			units: { asked: study.units, finished: finished.length, failed: failures.length },
			partial: surroundings.partial,
			failures,
			compensation,
			level,
			methods: {
				draws: 'every drive independent of the others',
				verdict: verdictMethods[isSequential ? 'sequential' : 'fixed'],
				...methods,
			},
			warnings: surroundings.warnings,
		},
		stopping: stoppingOutcome(rule, ceiling, study, verdict),
		requirement: { ...requirement, sentence: requirementSentence(requirement) },
		verdict,
		comparison: { ...comparison, sentence: comparisonSentence(comparison, level) },
		points: scenario.points.map((_, point) => pointResult({ scenario, study, finished, point, level, resamples })),
	};
}
