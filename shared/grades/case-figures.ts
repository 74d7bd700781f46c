import type { PerChoice } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import { type Verdict, verdict } from '../statistics/verdict.ts';
import { choiceFigures } from '../study/choice-figures.ts';
import { cellOf } from '../study/columns.ts';
import { confidenceLevel } from '../study/confidence-level.ts';
import { finishedUnits, type StudyColumns } from '../study/merge.ts';
import type { StudyPlan } from '../study/plan.ts';
import { sectorsPerHour } from '../study/sectors-per-hour.ts';
import { unitErrorFigures } from '../study/unit-error-figures.ts';
import { crossingsIn, requirementOf, type Shortcoming, shortcomings, unitJudge } from '../study/unit-passes.ts';
import type { CaseChoice, CaseFigures, CasePoint } from './result.ts';

/** One run's figures for both choices, from its columns. */
export function caseFigures(plan: StudyPlan, study: StudyColumns, resultDigest: string): CaseFigures {
	const finished = finishedUnits(study);
	return {
		resultDigest,
		units: { asked: study.units, finished: finished.length, failed: study.failures.length },
		compensation: plan.compensation,
		choices: perChoice((_, choice) => caseChoice(plan, study, finished, choice)),
	};
}

/** What a run says of the requirement on its own. Units that were not simulated count against either decision. */
export function caseVerdict(
	{ units, choices }: CaseFigures,
	choice: keyof PerChoice<unknown>,
	share: number,
	confidence: number,
): Verdict {
	const { passed } = choices[choice];
	return verdict({ passed, failed: units.finished - passed, notSimulated: units.failed }, share, confidence);
}

function caseChoice({ scenario }: StudyPlan, study: StudyColumns, finished: Uint32Array, choice: number): CaseChoice {
	const { share: required, confidence } = requirementOf(scenario);
	const judge = unitJudge(scenario);
	const counted = Object.fromEntries(shortcomings.map((name) => [name, 0])) as Record<Shortcoming, number>;
	let passed = 0;
	for (const unit of finished) {
		const reason = firstOf(scenario.points, (_, point) => judge.shortcoming(study.columns, unit, point, choice));
		if (reason === null) passed += 1;
		else counted[reason] += 1;
	}
	const counts = { passed, failed: finished.length - passed, notSimulated: study.failures.length };
	const { share, low, high } = verdict(counts, required, confidence);
	const points = scenario.points.map((point, place): CasePoint => {
		const hourly = sectorsPerHour(scenario, point);
		const { unitError, rates, lost, torqueNotReached, runs } = choiceFigures({
			study,
			finished,
			point: place,
			choice,
			sectorsPerHour: hourly,
			level: confidenceLevel,
		});
		const crossingsPerHour = hourly * meanCrossings(study, finished, place, choice);
		return { name: point.name, unitError, crossingsPerHour, rates, lost, torqueNotReached, runs };
	});
	const weights = scenario.points.map(({ values }) => values['operation.share'] ?? 1);
	const total = weights.reduce((sum, weight) => sum + weight, 0);
	return {
		passed,
		shortcomings: counted,
		share,
		low,
		high,
		unitError: worstErrors(study, finished, choice),
		crossingsPerHour: points.reduce(
			(sum, { crossingsPerHour }, place) => sum + ((weights[place] as number) / total) * crossingsPerHour,
			0,
		),
		points,
	};
}

/** Expected crossings gone wrong a sector: all units' over all units' sectors. */
function meanCrossings(study: StudyColumns, finished: Uint32Array, point: number, choice: number): number {
	let crossings = 0;
	let sectors = 0;
	for (const unit of finished) {
		const cell = cellOf(study.points, unit, point, choice);
		crossings += crossingsIn(study.columns, cell);
		sectors += study.columns.sectors[cell] as number;
	}
	return crossings / sectors;
}

/** Each unit's error at the point where it is largest; a lost unit's is infinite. */
function worstErrors(study: StudyColumns, finished: Uint32Array, choice: number): CaseChoice['unitError'] {
	const worst = Float64Array.from(finished, (unit) => {
		let error = 0;
		for (let point = 0; point < study.points; point += 1) {
			error = Math.max(error, study.columns.unitError[cellOf(study.points, unit, point, choice)] as number);
		}
		return error;
	}).sort();
	return unitErrorFigures(worst, confidenceLevel);
}

function firstOf<Item, Found>(items: readonly Item[], find: (item: Item, place: number) => Found | null): Found | null {
	for (const [place, item] of items.entries()) {
		const found = find(item, place);
		if (found !== null) return found;
	}
	return null;
}
