import { describe, expect, test } from 'vitest';
import { modelChecksSentence, modelChecksSummary } from '../../shared/model-checks/model-checks-summary.ts';
import { textWidth, widthOf } from '../../src/command-line/wrap-text.ts';
import { modelChecks } from './all-checks.ts';
import { checkTable } from './check-table.ts';
import { type CheckOutcome, outcomeOf } from './model-check.ts';
import { summariseChecks } from './summarise-checks.ts';

const outcomes: CheckOutcome[] = [];

for (const { area, checks } of modelChecks) {
	describe(area, () => {
		test.each(
			checks.map((check) => [check.what, check.expected, check.unit, check.tolerance, check.source, check] as const),
		)('%s: %d %s to within %d (%s)', (_what, expected, _unit, tolerance, _source, check) => {
			const outcome = outcomeOf(check);
			outcomes.push(outcome);
			expect(Math.abs(outcome.got - expected), `got ${outcome.got}`).toBeLessThanOrEqual(tolerance);
			expect(outcome.holds).toBe(true);
		});
	});
}

test('the summary that reports cite is that of these checks (npm run check-model -- --write brings it up to date)', () => {
	expect(modelChecksSummary).toEqual(summariseChecks(outcomes));
	expect(modelChecksSentence(modelChecksSummary)).toMatch(
		/version \d+\.\d+\.\d+ .*, all \d+ hold: \d+ published values/,
	);
	expect(modelChecksSentence({ ...modelChecksSummary, held: 300 })).toContain(', 300 of ');
});

test('no check is listed twice, and a figure that is off is marked; lines end at 80 columns but for that mark', () => {
	const names = outcomes.map(({ check }) => `${check.what} ${check.source} ${check.expected}`);
	expect(new Set(names).size).toBe(names.length);
	const [first] = outcomes as [CheckOutcome];
	const off = outcomeOf({ ...first.check, expected: first.got + 2 * first.check.tolerance + 1 });
	expect(off.holds).toBe(false);
	expect(checkTable('Area', [off])).toMatch(/−1e\+0 OFF$/m);
	for (const line of checkTable('Area', outcomes).split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
});
