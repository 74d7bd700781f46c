import { expect, test } from 'vitest';
import { cellFigures } from '../../shared/contest/cell-figures.ts';
import { emptyStudy, failUnits, type StudyColumns, unitStates } from '../../shared/study/merge.ts';
import { smallScenario } from '../study/small-scenario.ts';

const scenario = { ...smallScenario(), points: smallScenario().points.slice(0, 1) };

/** Units of which the first `wins` have the smaller error with half-bus, 1° against 2°, the others the other way round. */
function study(wins: number, losses: number, ties = 0): StudyColumns {
	const made = emptyStudy(wins + losses + ties, 1);
	for (let unit = 0; unit < made.units; unit += 1) {
		const [halfBus, virtualNeutral] = unit < wins ? [1, 2] : unit < wins + losses ? [2, 1] : [1, 1];
		made.columns.unitError.set([halfBus as number, virtualNeutral as number], 2 * unit);
	}
	made.states.fill(unitStates.finished);
	return made;
}

/*
 * With the Beta(½, ½) mixture all n differing units on one side exclude one half
 * at level 1 − α where B(½, n + ½)/B(½, ½) ≥ 2⁻ⁿ/α, that is where
 * C(2n, n) ≥ 2ⁿ/α, since B(½, n + ½)/π = C(2n, n)/4ⁿ.
 */
const choose = (n: number): number => {
	let value = 1;
	for (let i = 1; i <= n; i += 1) value = (value * (n + i)) / i;
	return value;
};
const fewest = (alpha: number): number => {
	let n = 1;
	while (choose(n) < 2 ** n / alpha) n += 1;
	return n;
};

test.each([
	[0.05, 7],
	[0.05 / 48, 13],
])('at α = %f all of %i units on one side decide, one fewer do not (closed form of the mixture ratio)', (alpha, n) => {
	expect(fewest(alpha)).toBe(n);
	expect(cellFigures(scenario, study(n, 0), 1 - alpha)?.better).toBe('halfBus');
	expect(cellFigures(scenario, study(0, n), 1 - alpha)?.better).toBe('virtualNeutral');
	expect(cellFigures(scenario, study(n - 1, 0), 1 - alpha)?.better).toBe('not shown');
});

test('30 to 30 and 20 ties show neither; counts and medians are those of the units', () => {
	const figures = cellFigures(scenario, study(30, 30, 20), 0.95);
	expect(figures).toMatchObject({
		better: 'not shown',
		smaller: { halfBus: 30, virtualNeutral: 30 },
		ties: 20,
		medianDifference: 0,
		choices: { halfBus: { medianError: 1 }, virtualNeutral: { medianError: 1 } },
	});
});

test('a unit that lost lock counts as worse than any error: 20 lost with virtual neutral make half-bus the better', () => {
	const lost = study(0, 0, 20);
	for (let unit = 0; unit < 20; unit += 1) lost.columns.unitError[2 * unit + 1] = Number.POSITIVE_INFINITY;
	expect(cellFigures(scenario, lost, 0.95)).toMatchObject({
		better: 'halfBus',
		medianDifference: Number.NEGATIVE_INFINITY,
		choices: { virtualNeutral: { medianError: Number.POSITIVE_INFINITY } },
	});
});

test.each([
	['halfBus', 12, 0],
	['virtualNeutral', 0, 12],
] as const)(
	'6 units that could not be simulated take the decision for %s from 12 that agree',
	(choice, wins, losses) => {
		const some = study(wins, losses, 6);
		expect(cellFigures(scenario, some, 0.95)?.better).toBe(choice);
		failUnits(some, 12, 18, 'broken');
		expect(cellFigures(scenario, some, 0.95)).toMatchObject({
			better: 'not shown',
			units: { finished: 12, failed: 6 },
		});
	},
);

test('400 units that all pass show the requirement; with 60 of them not simulated it is open', () => {
	const some = study(0, 0, 400);
	expect(cellFigures(scenario, some, 0.95)?.choices.halfBus).toMatchObject({ passed: 400, decision: 'holds' });
	failUnits(some, 340, 400, 'broken');
	expect(cellFigures(scenario, some, 0.95)?.choices.halfBus).toMatchObject({ passed: 340, decision: 'undecided' });
});

test('without a finished unit there are no figures', () => {
	expect(cellFigures(scenario, emptyStudy(5, 1), 0.95)).toBeNull();
});
