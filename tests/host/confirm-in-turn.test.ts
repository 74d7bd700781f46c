import { expect, test } from 'vitest';
import { confirmInTurn } from '../../src/host/confirm-in-turn.ts';
import type { CaseRun, CaseRunner } from '../../src/host/grade-cases.ts';
import { madeUpFigures } from '../grades/figures.ts';
import { smallScenario } from '../study/small-scenario.ts';

/** Candidates are scenarios of their own name; `passing` says how many of 100 drives pass in one. */
function confirm(
	halfBus: readonly string[],
	virtualNeutral: readonly string[],
	passing: (name: string) => number,
	rounds = Number.POSITIVE_INFINITY,
) {
	const jobs: (readonly string[])[] = [];
	const runCases: CaseRunner = async (runs: readonly CaseRun[]) => {
		jobs.push(runs.map(({ scenario, seed }) => `${scenario.name} with ${seed}`));
		const figures = runs.map(({ scenario }) => madeUpFigures(passing(scenario.name), passing(scenario.name)));
		return { figures, warnings: [], isComplete: jobs.length <= rounds };
	};
	const done = confirmInTurn(
		{ halfBus, virtualNeutral },
		{
			runCases,
			units: 100,
			label: 'demo fresh',
			scenarioOf: (name) => ({ ...smallScenario(), name }),
			share: 0.9,
			confidence: 0.95,
		},
	);
	return done.then(({ tests, isComplete }) => ({
		jobs,
		isComplete,
		halfBus: tests.halfBus.map(({ subject, verdict }) => `${subject} ${verdict.decision}`),
		virtualNeutral: tests.virtualNeutral.map(({ subject, verdict }) => `${subject} ${verdict.decision}`),
	}));
}

test('one that holds again ends it after one round, on a seed of its own; both choices share the run of the same grade', async () => {
	expect(await confirm(['2 %', '1 %'], ['2 %'], () => 100)).toEqual({
		jobs: [['2 % with demo fresh 1']],
		isComplete: true,
		halfBus: ['2 % holds'],
		virtualNeutral: ['2 % holds'],
	});
});

test('where fresh drives do not confirm the loosest, the next tighter is tried with another seed, and then none', async () => {
	const passing = (name: string): number => ({ '2 %': 80, '1 %': 93, '0.1 %': 100 })[name] ?? 0;
	expect(await confirm(['2 %', '1 %', '0.1 %'], ['1 %'], passing)).toEqual({
		jobs: [['2 % with demo fresh 1', '1 % with demo fresh 1'], ['1 % with demo fresh 2'], ['0.1 % with demo fresh 3']],
		isComplete: true,
		halfBus: ['2 % fails', '1 % undecided', '0.1 % holds'],
		virtualNeutral: ['1 % undecided'],
	});
});

test('without candidates nothing is run; a round that was cut short says nothing', async () => {
	expect((await confirm([], [], () => 100)).jobs).toEqual([]);
	const cut = await confirm(['2 %', '1 %'], [], () => 0, 1);
	expect(cut).toMatchObject({ isComplete: false, halfBus: ['2 % fails'] });
});
