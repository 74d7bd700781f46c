import { type ChoiceName, choiceNames, type PerChoice } from '../../shared/drive/drive.ts';
import { perChoice } from '../../shared/drive/per-choice.ts';
import type { ChoiceTuning, FirmwareResult, TunedFigures } from '../../shared/firmware/firmware-result.ts';
import { firmwareSentence } from '../../shared/firmware/firmware-sentence.ts';
import { fitTuning, type Tuning, type TuningLimits } from '../../shared/firmware/fit-tuning.ts';
import { type PopulationMean, populationMean } from '../../shared/firmware/point-means.ts';
import type { NumberRecord } from '../../shared/parameters/parameter.ts';
import { parameter } from '../../shared/parameters/parameters.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { mcnemar } from '../../shared/statistics/mcnemar.ts';
import { finishedUnits, type StudyColumns } from '../../shared/study/merge.ts';
import { requirementOf } from '../../shared/study/unit-passes.ts';
import { requirementSentence } from '../../shared/study/verdict-sentence.ts';
import { passesOf } from '../../shared/variants/passes.ts';
import type { Variant } from '../../shared/variants/variant.ts';
import { variantFigures } from '../../shared/variants/variant-figures.ts';
import { variantMethods } from '../../shared/variants/variant-methods.ts';
import { CountedWork } from './counted-work.ts';
import { findCompensation } from './find-compensation.ts';
import { onOwnWorkers } from './on-own-workers.ts';
import type { Pool } from './pool.ts';
import { provenanceOf } from './provenance.ts';
import { silenceLimitOf } from './silence-limit.ts';
import type { WorkRequest } from './work-request.ts';

export interface FirmwareRequest extends WorkRequest {
	/** Of each run. */
	readonly units: number;
}

/** Runs after which the tuning is taken as it is. */
const mostRounds = 6;
/** Share of its standard error that no point's mean is to move by any more. */
const settled = 0.1;

const methods = {
	tuning: `weighted least squares of the points' mean errors over electrical speed: the slope is delay, the intercept angle; repeated on the same drives until no mean would move by more than ${settled} of its standard error`,
	'mean error':
		"mean over drives of each one's mean error, points by their share of the hours; drives that lost lock are left out",
	confirmation: 'before and after on the same fresh drives; McNemar, exact',
};

/** Finds a firmware's tuning on workers of its own. */
export const runFirmware = onOwnWorkers(runFirmwareInPool);

/** The same on workers that live on. */
export async function runFirmwareInPool(request: FirmwareRequest, pool: Pool): Promise<FirmwareResult> {
	const { scenario, seed, units, signal } = request;
	const found = await findCompensation(scenario, pool, silenceLimitOf(scenario), signal);
	const before = perChoice((choice): Tuning => ({ compensation: found.compensation[choice], advanceTrim: 0 }));
	const runs = new TuningRuns(request, found, pool);
	const advance = scenario.values['detection.advance'] as number;
	const limits = limitsAt(advance);

	let after = before;
	const rounds: Record<ChoiceName, number> = { halfBus: 0, virtualNeutral: 0 };
	for (let round = 1; round <= mostRounds && runs.isComplete; round += 1) {
		const [study] = await runs.take(seed, [after]);
		if (study === undefined || !runs.isComplete) break;
		const present = after;
		after = perChoice((choice, place) => {
			const next = nextTuning(scenario, populationMean(scenario, study, place), present[choice], limits);
			if (next !== null) rounds[choice] = round;
			return next ?? present[choice];
		});
		if (choiceNames.every((choice) => after[choice] === present[choice])) break;
	}

	const confirmationSeed = `${seed} fresh`;
	const [studyBefore, studyAfter] = runs.isComplete ? await runs.take(confirmationSeed, [before, after]) : [];
	const choices = perChoice(
		(choice, place): ChoiceTuning => ({
			before: before[choice],
			after: after[choice],
			rounds: rounds[choice],
			confirmed:
				studyBefore && studyAfter && runs.isComplete
					? confirmation(scenario, studyBefore, studyAfter, choice, place)
					: null,
		}),
	);
	const requirement = requirementOf(scenario);
	const result: Omit<FirmwareResult, 'sentence'> = {
		format: 'anglespread-firmware',
		formatVersion: 1,
		provenance: await provenanceOf({
			scenario,
			seed,
			found,
			digests: runs.digests,
			units: runs.done,
			partial: !runs.isComplete,
			failures: runs.failures,
			methods: { ...variantMethods, ...methods },
		}),
		requirement: { ...requirement, sentence: requirementSentence(requirement) },
		unitsPerRun: units,
		confirmationSeed,
		advance,
		choices,
	};
	return { ...result, sentence: firmwareSentence(result) };
}

/** Both settings keep within what a scenario may state. */
function limitsAt(advance: number): TuningLimits {
	const range = parameter('detection.advance') as NumberRecord;
	const delay = parameter('detection.compensation') as NumberRecord;
	return { mostCompensation: delay.max, leastTrim: range.min - advance, mostTrim: range.max - advance };
}

/** The next tuning; the present one where it is settled, null where a point has no drive that keeps lock. */
function nextTuning(
	{ points, values }: Scenario,
	{ points: means }: PopulationMean,
	present: Tuning,
	limits: TuningLimits,
): Tuning | null {
	const counted = means.flatMap(({ mean, weight, standardError }, place) => {
		const speed = 6 * (values['motor.polePairs'] as number) * (points[place]?.values['operation.speed'] ?? 0);
		return weight > 0 ? [{ mean, weight, speed, standardError }] : [];
	});
	if (counted.length === 0 || counted.some(({ mean }) => Number.isNaN(mean))) return null;
	const next = fitTuning(counted, present, limits);
	const delay = next.compensation - present.compensation;
	const trim = next.advanceTrim - present.advanceTrim;
	const moves = counted.some(({ speed, standardError }) => Math.abs(speed * delay + trim) > settled * standardError);
	return moves ? next : present;
}

function confirmation(
	scenario: Scenario,
	before: StudyColumns,
	after: StudyColumns,
	choice: ChoiceName,
	place: number,
): NonNullable<ChoiceTuning['confirmed']> {
	const figures = (study: StudyColumns): TunedFigures => ({
		...variantFigures(scenario, study).choices[choice],
		error: populationMean(scenario, study, place),
	});
	const passedBefore = passesOf(scenario, before)[choice];
	const passedAfter = passesOf(scenario, after)[choice];
	const both = new Set(finishedUnits(after));
	let gained = 0;
	let lost = 0;
	for (const unit of finishedUnits(before)) {
		if (!both.has(unit)) continue;
		if (passedAfter[unit] === 1 && passedBefore[unit] === 0) gained += 1;
		if (passedAfter[unit] === 0 && passedBefore[unit] === 1) lost += 1;
	}
	return {
		before: figures(before),
		after: figures(after),
		change: { gained, lost, p: mcnemar(lost, gained).exact },
	};
}

/** Runs of the scenario's drives under given tunings, and what became of their units. */
class TuningRuns extends CountedWork<FirmwareRequest> {
	take(seed: string, tunings: readonly PerChoice<Tuning>[]): Promise<readonly StudyColumns[]> {
		const variants = tunings.map((tuning): Variant => {
			const advanceTrim = perChoice((choice) => tuning[choice].advanceTrim);
			return {
				compensation: perChoice((choice) => tuning[choice].compensation),
				// an untrimmed run is the study's own
				...(choiceNames.some((choice) => advanceTrim[choice] !== 0) && { advanceTrim }),
			};
		});
		return this.run(variants, { seed });
	}
}
