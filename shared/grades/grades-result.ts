import type { ChoiceName, PerChoice } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { warnings as scenarioWarnings } from '../scenario/warnings.ts';
import { confidenceLevel } from '../study/confidence-level.ts';
import { requirementOf } from '../study/unit-passes.ts';
import { version } from '../study/version.ts';
import { nominalShifts } from './apply-grade.ts';
import { gradeCautions } from './cautions.ts';
import type { Grade } from './grade.ts';
import { type GradePlan, shownEffects } from './grade-plan.ts';
import { type Judgement, kindsOf, ladderConfidence } from './judge-grades.ts';
import { gradeMethods } from './methods.ts';
import { type Mix, roundedPrice } from './mixes.ts';
import { resistorCount } from './resistor-groups.ts';
import type { CaseFigures, CheapestMix, Enough, FreshTest, GradeResult, GradesResult, MixFigures } from './result.ts';
import { enoughSentence, mixSentence } from './sentence.ts';

type GradePlaces = GradePlan['gradePlaces'][0];

interface Findings {
	readonly plan: GradePlan;
	readonly figures: readonly CaseFigures[];
	readonly judgement: Judgement;
	/** For each kind of grade that there is. */
	readonly gradeTests: readonly PerChoice<readonly FreshTest<Grade>[]>[];
	readonly mixTests: PerChoice<readonly FreshTest<Mix>[]>;
	readonly seed: string;
	readonly units: number;
	readonly scenarioDigest: string;
	readonly resultDigest: string;
	readonly isPartial: boolean;
	readonly warnings: readonly string[];
}

/** The record of a comparison of grades, from what was run and judged. */
export function gradesResult(findings: Findings): GradesResult {
	const { plan, figures, judgement, seed, units, isPartial } = findings;
	const { scenario, group, ladder } = plan;
	const requirement = requirementOf(scenario);
	/** What the stated tolerances of these resistors leave open is no longer so under a grade. */
	const graded = plan.scenarios[plan.exactPlace] as Scenario;
	const at = (place: number): CaseFigures => figures[place] as CaseFigures;
	return {
		format: 'anglespread-grades',
		formatVersion: 2,
		provenance: {
			version,
			seed,
			scenario: scenario.name,
			scenarioDigest: findings.scenarioDigest,
			resultDigest: findings.resultDigest,
			unitsPerRun: units,
			runs: plan.scenarios.length,
			units: unitsInAll(figures),
			requirement,
			partial: isPartial,
			level: confidenceLevel,
			methods: gradeMethods(requirement, { isMixed: plan.isMixed, kinds: judgement.held.length }),
			warnings: [...scenarioWarnings(graded), ...findings.warnings, ...gradeCautions(scenario, group, ladder)],
		},
		group,
		exact: at(plan.exactPlace),
		grades: ladder.map((grade, place): GradeResult => {
			const { price } = grade;
			const places = plan.gradePlaces[place] as GradePlaces;
			return {
				grade,
				price: price === null ? null : perChoice((choice) => roundedPrice(price * resistorCount(group, choice))),
				nominals: nominalShifts(scenario, group, grade),
				cases: Object.fromEntries(shownEffects.map((effect) => [effect, at(places[effect])])) as GradeResult['cases'],
				judged: perChoice((choice) => judgement.judged[choice][place] ?? null),
			};
		}),
		enough: perChoice((choice) => enough(findings, 0, choice)),
		enoughOfArrays: judgement.held.length > 1 ? perChoice((choice) => enough(findings, 1, choice)) : null,
		cheapest: plan.isMixed ? perChoice((choice) => cheapest(findings, choice)) : null,
	};
}

/** @param kind 0 for loose resistors where there are any, else for arrays; 1 for arrays beside them */
function enough(
	{ plan, figures, judgement, gradeTests, isPartial }: Findings,
	kind: number,
	choice: ChoiceName,
): Enough {
	const { from, to } = kindsOf(plan.ladder)[kind] as { readonly from: number; readonly to: number };
	const at = (place: number): CaseFigures => figures[place] as CaseFigures;
	const requirement = requirementOf(plan.scenario);
	const tightest = at((plan.gradePlaces[from] as GradePlaces).both);
	const fresh = (gradeTests[kind] as PerChoice<readonly FreshTest<Grade>[]>)[choice].map((test) => ({
		...test,
		subject: test.subject.name,
	}));
	const found = {
		loosest: judgement.held[kind]?.[choice][0]?.name ?? null,
		fresh,
		confirmed: fresh.find(({ verdict }) => verdict.decision === 'holds')?.subject ?? null,
	};
	const sentence = enoughSentence({
		choice,
		group: plan.group,
		areArrays: kind > 0,
		isConcerned: resistorCount(plan.group, choice) > 0,
		grades: plan.ladder.slice(from, to).map(({ name }, place) => {
			const { nominals, tolerance } = plan.gradePlaces[from + place] as GradePlaces;
			return {
				name,
				verdict: judgement.judged[choice][from + place] ?? null,
				nominalsShare: at(nominals).choices[choice].share,
				toleranceShare: at(tolerance).choices[choice].share,
			};
		}),
		enough: found,
		shortcomings: tightest.choices[choice].shortcomings,
		exactShare: at(plan.exactPlace).choices[choice].share,
		units: tightest.units,
		requirement,
		confidenceOfEach: ladderConfidence(plan.ladder, requirement.confidence),
		isPartial,
	});
	return { ...found, sentence };
}

function cheapest({ plan, judgement, mixTests, isPartial }: Findings, choice: ChoiceName): CheapestMix {
	const fresh = mixTests[choice].map((test) => ({ ...test, subject: named(test.subject) }));
	const found = {
		searched: judgement.searched[choice].map(({ mix, verdict }) => ({ ...named(mix), verdict })),
		fresh,
		confirmed: fresh.find(({ verdict }) => verdict.decision === 'holds')?.subject ?? null,
	};
	return { ...found, sentence: mixSentence(choice, found, requirementOf(plan.scenario), isPartial) };
}

const named = ({ grades, price }: Mix): Pick<MixFigures, 'grades' | 'price'> => ({
	grades: Object.fromEntries(grades.map(({ group, grade }) => [group, grade.name])),
	price,
});

function unitsInAll(figures: readonly CaseFigures[]): CaseFigures['units'] {
	const sum = (of: keyof CaseFigures['units']): number => figures.reduce((total, { units }) => total + units[of], 0);
	return { asked: sum('asked'), finished: sum('finished'), failed: sum('failed') };
}
