import { type ChoiceName, choiceNames, type PerChoice } from '../../shared/drive/drive.ts';
import { perChoice } from '../../shared/drive/per-choice.ts';
import {
	type Corner,
	cornersOf,
	cornerValues,
	cornerVariant,
	neighbours,
	rangedConditions,
} from '../../shared/envelope/corners.ts';
import type { CombinationResult, EnvelopeResult } from '../../shared/envelope/envelope-result.ts';
import { envelopeSentence } from '../../shared/envelope/envelope-sentence.ts';
import { strengthOf } from '../../shared/envelope/fraction.ts';
import { worstOf } from '../../shared/envelope/worst.ts';
import type { OperatingPoint, Scenario } from '../../shared/scenario/scenario.ts';
import { verdict } from '../../shared/statistics/verdict.ts';
import { finishedUnits, type StudyColumns } from '../../shared/study/merge.ts';
import { requirementOf } from '../../shared/study/unit-passes.ts';
import { requirementSentence } from '../../shared/study/verdict-sentence.ts';
import { passesOf } from '../../shared/variants/passes.ts';
import { variantScenario } from '../../shared/variants/variant.ts';
import { variantFigures } from '../../shared/variants/variant-figures.ts';
import { variantMethods } from '../../shared/variants/variant-methods.ts';
import { CountedWork } from './counted-work.ts';
import { type FoundCompensation, findCompensation } from './find-compensation.ts';
import { onOwnWorkers } from './on-own-workers.ts';
import type { Pool } from './pool.ts';
import { provenanceOf } from './provenance.ts';
import { silenceLimitOf } from './silence-limit.ts';
import type { WorkRequest } from './work-request.ts';

export interface EnvelopeRequest extends WorkRequest {
	/** At each combination. */
	readonly units: number;
	/** Combinations beyond which they are thinned. */
	readonly combinations: number;
}

/** Runs an envelope on workers of its own. */
export const runEnvelope = onOwnWorkers(runEnvelopeInPool);

/** The same on workers that live on. */
export async function runEnvelopeInPool(request: EnvelopeRequest, pool: Pool): Promise<EnvelopeResult> {
	const { scenario, seed, units, combinations: most } = request;
	const found = await findCompensation(scenario, pool, silenceLimitOf(scenario), request.signal);
	const { corners, possible } = cornersOf(scenario, most);
	const isThinned = corners.length < possible;
	const run = new CornerRuns(request, found, pool);
	await run.take(corners, false);
	while (isThinned && run.isComplete) {
		const next = run.unseen(run.worst().flatMap(neighbours));
		if (next.length === 0) break;
		await run.take(next, true);
	}
	const requirement = requirementOf(scenario);
	const { results } = run;
	const result: Omit<EnvelopeResult, 'sentence'> = {
		format: 'anglespread-envelope',
		formatVersion: 1,
		provenance: await provenanceOf({
			scenario,
			seed,
			found,
			digests: run.digests,
			units: run.done,
			partial: !run.isComplete,
			failures: run.failures,
			methods: { ...variantMethods, 'the worst': worstMethod },
		}),
		requirement: { ...requirement, sentence: requirementSentence(requirement) },
		unitsPerCombination: units,
		possible,
		thinned: isThinned ? { strength: leastStrength(scenario, corners) } : null,
		combinations: results,
		worst: perChoice((choice) => worstOf(results, choice)),
		everywhere: perChoice((choice) => {
			const { passed, failed, notSimulated } = run.everywhere(choice);
			return { passed, verdict: verdict({ passed, failed, notSimulated }, requirement.share, requirement.confidence) };
		}),
	};
	return { ...result, sentence: envelopeSentence(result) };
}

const worstMethod =
	'smallest passing share, of equal ones the largest error that 1 drive in 20 exceeds; picked from many on the same drives, so that its own share tends to be a little too low';

/** Of the points that were thinned. */
function leastStrength({ points }: Scenario, corners: readonly Corner[]): number {
	return Math.min(
		...points.map((point, place) =>
			strengthOf(rangedConditions(point).length, corners.filter((corner) => corner.point === place).length),
		),
	);
}

/** Everything that was run, in order. */
class CornerRuns extends CountedWork<EnvelopeRequest> {
	readonly results: CombinationResult[] = [];
	private readonly corners: Corner[] = [];
	/** For each unit and choice, 1 as long as it passed wherever it was run; and how often it was. */
	private readonly passed: PerChoice<Uint8Array>;
	private readonly finished: Uint32Array;

	constructor(request: EnvelopeRequest, found: FoundCompensation, pool: Pool) {
		super(request, found, pool);
		this.passed = perChoice(() => new Uint8Array(request.units).fill(1));
		this.finished = new Uint32Array(request.units);
	}

	/** Runs the drives at these corners, as one job. */
	async take(corners: readonly Corner[], isSearched: boolean): Promise<void> {
		const { scenario } = this.request;
		const variants = corners.map((corner) => cornerVariant(scenario, corner));
		const studies = await this.run(variants);
		for (const [place, corner] of corners.entries()) {
			const study = studies[place] as StudyColumns;
			const point = scenario.points[corner.point] as OperatingPoint;
			const varied = variantScenario(scenario, variants[place] as (typeof variants)[number]);
			this.corners.push(corner);
			this.results.push({
				point: point.name,
				limits: corner.limits,
				conditions: cornerValues(point, corner),
				isSearched,
				...variantFigures(varied, study),
			});
			const passes = passesOf(varied, study);
			for (const choice of choiceNames) {
				for (const unit of this.passed[choice].keys()) {
					if (passes[choice][unit] === 0) this.passed[choice][unit] = 0;
				}
			}
			for (const unit of finishedUnits(study)) this.finished[unit] = (this.finished[unit] as number) + 1;
		}
	}

	/** Those that were not run yet, each once. */
	unseen(corners: readonly Corner[]): Corner[] {
		const key = ({ point, limits }: Corner): string => `${point} ${Object.values(limits).join(' ')}`;
		const seen = new Set(this.corners.map(key));
		return corners.filter((corner) => {
			const isNew = !seen.has(key(corner));
			seen.add(key(corner));
			return isNew;
		});
	}

	/** Each choice's worst corner. */
	worst(): Corner[] {
		return choiceNames.flatMap((choice) => {
			const place = worstOf(this.results, choice);
			return place === null ? [] : [this.corners[place] as Corner];
		});
	}

	/** Units that passed at every corner, that did not at some, and that were not simulated at some. */
	everywhere(choice: ChoiceName) {
		const failedUnits = new Set(this.failures.map(({ unit }) => unit));
		let passed = 0;
		let failed = 0;
		for (let unit = 0; unit < this.finished.length; unit += 1) {
			if (failedUnits.has(unit) || this.finished[unit] !== this.corners.length) continue;
			if (this.passed[choice][unit] === 1) passed += 1;
			else failed += 1;
		}
		return { passed, failed, notSimulated: failedUnits.size };
	}
}
