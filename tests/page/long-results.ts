import type { GradesResult } from '../../shared/grades/result.ts';
import { runGradesInPool } from '../../src/host/run-grades.ts';
import { runSpreadInPool, type SpreadResult } from '../../src/host/run-spread.ts';
import type { LongWatch } from '../../src/page/model/long-question.ts';
import { gradeScenario, offered } from '../grades/grade-scenario.ts';
import { inlinePool } from '../grades/inline-pool.ts';

/** A longer question asked in this thread, as the page's model asks it. */
export const askedHere =
	<Asked, Result>(run: (request: Asked & LongWatch<Result>, pool: ReturnType<typeof inlinePool>) => Promise<Result>) =>
	(asked: Asked, watch: LongWatch<Result>): Promise<Result> =>
		run({ ...asked, ...watch }, inlinePool());

/** Three grades with prices on 24 quick drives. */
export const fewGrades = (): Promise<GradesResult> =>
	runGradesInPool(
		{
			scenario: gradeScenario(),
			group: 'all',
			grades: offered('20 %, 1 %, 0.1 %', [1, 2, 9]),
			seed: 'few',
			units: 24,
		},
		inlinePool(),
	);

/** Shares of the spread from 24 rows, and budgets with 24 drawn drives. */
export const fewSpread = (): Promise<SpreadResult> =>
	runSpreadInPool({ scenario: gradeScenario(), point: 0, seed: 'few', rows: 24, units: 24 }, inlinePool());
