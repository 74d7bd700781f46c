import { expect, test } from 'vitest';
import { type BudgetSource, oneAtATime } from '../../shared/budgets/budget-sources.ts';
import { type BudgetFigures, extremeSides, summariseBudgets } from '../../shared/budgets/summarise-budgets.ts';
import { whyTheyDiffer } from '../../shared/budgets/why-they-differ.ts';
import { figuresPerRun, sectorKinds } from '../../shared/origins/mean-errors.ts';
import { stream } from '../../shared/sampling/stream.ts';
import { oneSpeed } from '../origins/one-speed.ts';
import { provenance } from '../origins/provenance.ts';

const sources: readonly BudgetSource[] = [0, 1, 2].map((slot) => ({
	id: `x${slot}`,
	name: `part ${slot}`,
	slot,
	of: 'parts',
	sdInHalfWidths: 1 / Math.sqrt(3),
}));

/** A figure of three parts at x = −1 … 1, of each sector kind. */
type Figure = (x: readonly number[], kind: number) => number;

/** All drives of a budget, every cell the figure: `drawn` of them at random. */
function budgets(figure: Figure, drawnDrives = 4000, given: Partial<BudgetFigures> = {}) {
	const figuresAt = (drives: readonly (readonly number[])[]): Float64Array =>
		Float64Array.from(
			drives.flatMap((x) => Array.from({ length: figuresPerRun }, (_, cell) => figure(x, cell % sectorKinds))),
		);
	// uniforms 0, ½ and 1 − 2⁻⁵³ are −1, 0 and 1
	const alone = figuresAt(
		oneAtATime(sources).map(({ parts }) => [0, 1, 2].map((slot) => Math.round(2 * (parts[slot] as number) - 1))),
	);
	const extreme = figuresAt(extremeSides(sources, alone).map((sides) => sources.map((_, place) => sides[place] ?? 0)));
	const next = stream('budget', 'test');
	const draws = Array.from({ length: drawnDrives }, () => [0, 1, 2].map(() => 2 * next.double() - 1));
	const drawn = figuresAt(draws);
	const own = { scenario: oneSpeed({}), point: 0, phases: 1, sources, alone, extreme, drawn, provenance };
	return summariseBudgets({ ...own, ...given });
}

test('of 3 + 2x − y + ½z: extreme ±3.5 summed and run, root-sum-square √5.25, σ √1.75, drawn 95 % of the exact draw', () => {
	const { choices, why, sentence } = budgets(([x = 0, y = 0, z = 0]) => 3 + 2 * x - y + 0.5 * z);
	const kind = choices.halfBus.kinds[4];
	expect(kind?.middle).toBe(3);
	expect(kind?.extremeValue).toEqual({ linear: 3.5, low: -3.5, high: 3.5 });
	expect(kind?.rootSumSquare).toBeCloseTo(Math.sqrt(5.25), 12);
	expect(kind?.propagated).toBeCloseTo(Math.sqrt(1.75), 12);
	// four standard errors of a standard deviation of 4,000
	expect(Math.abs((kind?.monteCarlo?.sd ?? 0) / Math.sqrt(1.75) - 1)).toBeLessThan(4 / Math.sqrt(8000));
	expect(kind?.effects[1]).toEqual([1, -1]);
	const { interval = [0, 0], withinRootSumSquare = 0, max = 0 } = kind?.monteCarlo ?? {};
	// of uniforms with half-widths 2, 1 and ½ a share [t³ − (t − 1)³]/48 adds up to more than 3.5 − t (1 < t < 2): t = 1.0627
	expect(Math.abs((interval?.[1] ?? 0) - 2.4373)).toBeLessThan(0.1);
	expect(max).toBeLessThan(3.5);
	expect(withinRootSumSquare).toBeGreaterThan(0.9);
	expect(sentence).toContain('−3.50° to +3.50°');
	expect(sentence).toContain('±2.29°');
	expect(why).toContain('nearly linear');
	expect(why).toContain('smaller by a factor of 1.5, which is √n for n = 2 equal sources');
});

test('a figure that bends moves further than the sum when run, and the paragraph says so', () => {
	const { choices, why } = budgets(([x = 0, y = 0]) => x + y + x * y);
	const { extremeValue } = choices.virtualNeutral.kinds[0] ?? expect.unreachable();
	expect(extremeValue).toEqual({ linear: 2, low: -1, high: 3 });
	expect(why).toContain('1.00° down and 3.00° up: the figure bends');
});

test('the sector kind that is told of is the one that moves furthest when run, not by the sum alone', () => {
	// the same sum in all kinds; kind 3 bends, to −3
	const figure = ([x = 0, y = 0]: readonly number[], kind: number): number => x + y - (kind === 3 ? x * x * y * y : 0);
	const { choices, sentence } = budgets(figure, 100);
	expect(choices.halfBus.kinds.map((kind) => kind?.extremeValue.linear)).toEqual(Array(6).fill(2));
	expect(choices.halfBus.worstKind).toBe(3);
	expect(sentence).toContain('sectors of phase\u00a0c rising, by −3.00° to +1.00°');
});

test('a part that loses lock at a limit leaves no budget and is named; so does the nominal drive', () => {
	const cliff = budgets(([x = 0, y = 0]) => (y > 0.9 ? Number.NaN : x + y));
	expect(cliff.choices.halfBus.kinds.every((kind) => kind === null)).toBe(true);
	expect(cliff.choices.halfBus).toMatchObject({ without: ['part 1'], worstKind: null });
	expect(cliff.choices.halfBus.drawnWithout).toBeGreaterThan(100);
	expect(cliff.sentence).toContain('with part 1 at a limit');
	const below = budgets(([x = 0, y = 0]) => (y < -0.9 ? Number.NaN : x + y));
	expect(below.choices.halfBus).toMatchObject({ without: ['part 1'], worstKind: null });
	const none = budgets(() => Number.NaN);
	expect(none.choices.halfBus.without).toEqual(['the nominal drive']);
	expect(none.why).toBe('There is nothing to compare.');
});

test('lock lost only with everything at its worse limit is an extreme value without a figure', () => {
	const { choices, sentence, why } = budgets(([x = 0, y = 0, z = 0]) => (x + y + z > 2.9 ? Number.NaN : x + y + z));
	expect(choices.halfBus.kinds[0]?.extremeValue).toEqual({ linear: 3, low: -3, high: null });
	expect(sentence).toContain('loss of its crossings');
	expect(why).toContain('loses lock or its crossings');
});

test('the paragraph is on the choice whose extreme value is larger, and calls 2.06 run where 2 were summed nearly linear', () => {
	const of = (factor: number) => budgets(([x = 0, y = 0]) => factor * (x + y + 0.03 * x * y), 100).choices.halfBus;
	expect(whyTheyDiffer({ halfBus: of(1), virtualNeutral: of(2) })).toMatch(/^Taking virtual neutral, /);
	const why = whyTheyDiffer({ halfBus: of(1), virtualNeutral: of(0.5) }).replaceAll('\u00a0', ' ');
	expect(why).toMatch(/^Taking half-bus, /);
	expect(why).toContain('the drive moves as far as the sum says, within 1.5 %: the figure is nearly linear.');
});

test('cut short before the drives at their limits were run, it says so and not that they lost their crossings', () => {
	const { choices, sentence } = budgets(([x = 0]) => x, 0, {
		extreme: null,
		provenance: { ...provenance, partial: true },
	});
	expect(choices.halfBus).toMatchObject({ worstKind: null, without: [] });
	expect(sentence).toContain('cut short before a budget could be made');
	expect(sentence).not.toContain('loss of its crossings');
});
