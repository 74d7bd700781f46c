import type { PerChoice } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import { simulatePair } from '../drive/simulate-pair.ts';
import type { OperatingPoint, Scenario } from '../scenario/scenario.ts';
import type { StudyPlan } from '../study/plan.ts';
import { sectorsPerHour } from '../study/sectors-per-hour.ts';
import { errorMessage } from '../words/error-message.ts';
import { buildRequest } from './build-request.ts';
import { type DriveOutcome, driveOutcome, type OutcomeRules } from './drive-outcome.ts';
import type { DriveRequest } from './drive-request.ts';
import { removals } from './without.ts';

/** A run that was simulated with both choices, or why it could not be. */
export type PairOutcome = PerChoice<DriveOutcome> | { readonly failure: string };

interface Outcomes {
	readonly from: number;
	readonly outcomes: readonly PairOutcome[];
}

/** All starts of a unit at all points; index = point · starts + start. */
export function unitOutcomes(
	{ plan, unit }: { readonly plan: StudyPlan; readonly unit: number },
	from: number,
	to: number,
	report: (done: number) => void,
): Outcomes {
	const starts = plan.scenario.values['trial.starts'] as number;
	return outcomes(from, to, report, (index) =>
		outcomeOf({ plan, unit, point: Math.floor(index / starts), start: index % starts }, null),
	);
}

/** One drive as it is (index 0) and without each of `removals` (from index 1 on). */
export function driveCauses(request: DriveRequest, from: number, to: number, report: (done: number) => void): Outcomes {
	return outcomes(from, to, report, (index) => outcomeOf(request, removals[index - 1] ?? null));
}

function outcomes(
	from: number,
	to: number,
	report: (done: number) => void,
	make: (index: number) => PairOutcome,
): Outcomes {
	const made: PairOutcome[] = [];
	for (let index = from; index < to; index++) {
		made.push(make(index));
		report(index + 1 - from);
	}
	return { from, outcomes: made };
}

function outcomeOf(request: DriveRequest, removal: (typeof removals)[number] | null): PairOutcome {
	try {
		const { drive, noise } = buildRequest(request, removal);
		const pair = simulatePair(drive, noise, { chances: true });
		const { scenario } = request.plan;
		const rules = outcomeRules(scenario, scenario.points[request.point] as OperatingPoint);
		return perChoice((choice) => driveOutcome(pair[choice], rules));
	} catch (error) {
		return { failure: errorMessage(error) };
	}
}

function outcomeRules(scenario: Scenario, point: OperatingPoint): OutcomeRules {
	const { values } = scenario;
	return {
		sectorsPerHour: sectorsPerHour(scenario, point),
		firstSector: (values['trial.warmup'] as number) + (values['trial.settle'] as number),
		falseMargin: values['trial.falseMargin'] as number,
		quantile: values['requirement.quantile'] as number,
	};
}
