import type { BudgetsResult } from '../budgets/budgets-result.ts';
import type { ChoiceName, PerChoice } from '../drive/drive.ts';
import type { EnvelopeResult } from '../envelope/envelope-result.ts';
import type { Grade } from '../grades/grade.ts';
import type { AskedGroup } from '../grades/resistor-groups.ts';
import type { GradesResult } from '../grades/result.ts';
import type { DriveWindow } from '../one-drive/drive-window.ts';
import type { BuiltPart } from '../one-drive/unusual-parts.ts';
import type { Diagnosis } from '../one-drive/what-went-wrong.ts';
import type { OriginsResult } from '../origins/origins-result.ts';
import type { WeakestResult } from '../rare/weakest-result.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { StudyResult } from '../study/result.ts';
import type { StoppingRule } from '../study/stopping-rule.ts';

/** What can be computed for a report: what is asked beside the scenario, and what comes of it. Plain data. */
export interface Calculations {
	readonly study: {
		readonly asked: { readonly seed: string; readonly units: number; readonly until: StoppingRule };
		readonly result: StudyResult;
	};
	readonly envelope: {
		readonly asked: { readonly seed: string; readonly units: number; readonly combinations: number };
		readonly result: EnvelopeResult;
	};
	/** One an operating point. */
	readonly origins: {
		readonly asked: {
			readonly seed: string;
			readonly point: number;
			readonly rows: number;
			readonly units: number;
		};
		readonly result: OriginsResult;
	};
	/** One an operating point. */
	readonly budgets: {
		readonly asked: { readonly seed: string; readonly point: number; readonly units: number };
		readonly result: BudgetsResult;
	};
	readonly grades: {
		readonly asked: {
			readonly seed: string;
			readonly group: AskedGroup;
			readonly grades: readonly Grade[];
			readonly units: number;
		};
		readonly result: GradesResult;
	};
	readonly weakest: {
		readonly asked: { readonly seed: string; readonly units: number };
		readonly result: WeakestResult;
	};
}

export type CalculationName = keyof Calculations;

/** What each is called where it stands by itself. */
export const calculationTitles: Readonly<Record<CalculationName, string>> = {
	study: 'The study',
	envelope: 'The envelope',
	origins: 'Origins of the spread',
	budgets: 'Budgets',
	grades: 'Grades',
	weakest: 'The likeliest failing drive',
};

export type Asked = {
	[Name in CalculationName]: Pick<Calculations[Name], 'asked'> & { readonly name: Name };
}[CalculationName];
export type Calculation = { [Name in CalculationName]: Calculations[Name] & { readonly name: Name } }[CalculationName];

/** A drive that goes worst with one choice, simulated again. */
export interface WorstDrive {
	readonly choice: ChoiceName;
	readonly unit: number;
	/** Indices of operating point and start. */
	readonly point: number;
	readonly start: number;
	/** Its 95 % of |error| at that point, degrees; infinite where it lost lock. */
	readonly error: number;
	readonly diagnoses: readonly Diagnosis[];
	/** The most unusual first. */
	readonly parts: readonly BuiltPart[];
	/** A few sectors around what went worst. */
	readonly window: DriveWindow;
}

/** Everything that a report shows. */
export interface Report {
	/** The scenario file, as it was read. */
	readonly scenarioText: string;
	readonly scenario: Scenario;
	/** The study, and what else was computed. */
	readonly calculations: readonly Calculation[];
	/** What was asked for and is not among the calculations, or not all of it: an interruption came first. */
	readonly missing: readonly CalculationName[];
	/** An interruption came before all that the report shows was there. */
	readonly isCutShort: boolean;
	/** Each choice's worst drive; null where none was finished, it could not be simulated again, or an interruption came first. */
	readonly worst: PerChoice<WorstDrive | null>;
	/** Numerical checks of this version against published and independent values, in a sentence; null where they were not run. */
	readonly modelChecks: string | null;
}

/** All calculations of a kind. */
export const ofKind = <Name extends CalculationName>(
	{ calculations }: Pick<Report, 'calculations'>,
	name: Name,
): readonly Calculations[Name][] =>
	calculations.filter((one) => one.name === name) as unknown as readonly Calculations[Name][];

/** The study that the report is about; there always is one. */
export function studyOf(report: Pick<Report, 'calculations'>): Calculations['study'] {
	const [study] = ofKind(report, 'study');
	if (!study) throw new Error('a report needs a study');
	return study;
}
