import type { NominalShift } from '../grades/apply-grade.ts';
import type { Grade } from '../grades/grade.ts';
import { askedGroups } from '../grades/resistor-groups.ts';
import type {
	CaseChoice,
	CaseFigures,
	CasePoint,
	CheapestMix,
	Enough,
	FreshTest,
	GradeResult,
	GradesProvenance,
	GradesResult,
	MixFigures,
} from '../grades/result.ts';
import { seriesNames } from '../parts/preferred-series.ts';
import {
	events,
	originChecks,
	perChoice,
	rate,
	requirement,
	sentence,
	shortcomingCounts,
	unitCounts,
	unitError,
	verdict,
	word,
} from './common-shapes.ts';
import { type Check, count, dictionary, figure, list, number, object, one, orNull, text } from './shape.ts';

/** More grades than anyone offers, and mixes of three groups in them. */
const mostGrades = 100;
const mostMixes = 100_000;

const point = object<CasePoint>({
	name: word,
	unitError,
	crossingsPerHour: figure,
	rates: events(rate),
	lost: count,
	torqueNotReached: count,
	runs: count,
});

const figures = object<CaseFigures>({
	resultDigest: text(64),
	units: unitCounts,
	compensation: perChoice(number),
	choices: perChoice(
		object<CaseChoice>({
			passed: count,
			shortcomings: shortcomingCounts,
			share: figure,
			low: figure,
			high: figure,
			unitError,
			crossingsPerHour: figure,
			points: list(point, 100),
		}),
	),
});

const grade = object<GradeResult>({
	grade: object<Grade>({
		name: word,
		lot: number,
		mismatch: number,
		series: list(one(...seriesNames), seriesNames.length),
		price: orNull(number),
	}),
	price: orNull(perChoice(number)),
	nominals: list(
		object<NominalShift>({ id: word, name: word, designed: number, purchasable: number, shift: number }),
		100,
	),
	cases: object({ both: figures, nominals: figures, tolerance: figures }),
	judged: perChoice(orNull(verdict)),
});

const freshTests = <Subject>(subject: Check<Subject>): Check<readonly FreshTest<Subject>[]> =>
	list(object<FreshTest<Subject>>({ subject, seed: word, confidence: figure, verdict }), mostMixes);

const enough = object<Enough>({
	loosest: orNull(word),
	fresh: freshTests(word),
	confirmed: orNull(word),
	sentence,
});

const mixChecks = { grades: dictionary(word, 10), price: figure };
const mix = object<Pick<MixFigures, 'grades' | 'price'>>(mixChecks);
const cheapest = object<CheapestMix>({
	searched: list(object<MixFigures>({ ...mixChecks, verdict }), mostMixes),
	fresh: freshTests(mix),
	confirmed: orNull(mix),
	sentence,
});

/** What `grades` finds, field by field. */
export const gradesShape = object<GradesResult>({
	format: one('anglespread-grades'),
	formatVersion: one(2),
	provenance: object<GradesProvenance>({ ...originChecks, unitsPerRun: count, runs: count, requirement }),
	group: one(...askedGroups),
	exact: figures,
	grades: list(grade, mostGrades),
	enough: perChoice(enough),
	enoughOfArrays: orNull(perChoice(enough)),
	cheapest: orNull(perChoice(cheapest)),
});
