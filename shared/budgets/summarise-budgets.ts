import { choiceNames } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import { figuresPerRun, sectorKinds } from '../origins/mean-errors.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { coverageInterval } from '../statistics/coverage-interval.ts';
import { Moments } from '../statistics/moments.ts';
import { type ToleranceBudget, toleranceBudget } from '../statistics/tolerance-budget.ts';
import type { Provenance } from '../study/result.ts';
import type { BudgetSource } from './budget-sources.ts';
import type { BudgetsResult, ChoiceBudgets, KindBudgets } from './budgets-result.ts';
import { budgetsSentence } from './budgets-sentence.ts';
import { whyTheyDiffer } from './why-they-differ.ts';

export interface BudgetFigures {
	readonly scenario: Scenario;
	readonly point: number;
	readonly phases: number;
	readonly sources: readonly BudgetSource[];
	/** Of the drives of `oneAtATime`: [drive][choice][kind], degrees. */
	readonly alone: Float64Array;
	/** Of the drives of `extremeSides`, [choice][kind][lowest, highest]; null where it was cut short before all of them were run. */
	readonly extreme: Float64Array | null;
	/** Of drawn drives. */
	readonly drawn: Float64Array;
	readonly provenance: Provenance;
}

/** Figures of one choice and kind, drive by drive. */
const kindFigures = (figures: Float64Array, choice: number, kind: number): Float64Array =>
	Float64Array.from(
		{ length: figures.length / figuresPerRun },
		(_, drive) => figures[drive * figuresPerRun + choice * sectorKinds + kind] as number,
	);

/** Budget of one choice and kind from single sources at their limits; null where one of these drives has no figure. */
function linearBudget(
	sources: readonly BudgetSource[],
	alone: Float64Array,
	choice: number,
	kind: number,
): (ToleranceBudget & { readonly middle: number; readonly effects: readonly (readonly [number, number])[] }) | null {
	const [middle = Number.NaN, ...sides] = kindFigures(alone, choice, kind);
	const effects = sources.map((_, place): readonly [number, number] => [
		(sides[2 * place] as number) - middle,
		(sides[2 * place + 1] as number) - middle,
	]);
	if (!effects.every(([low, high]) => Number.isFinite(low) && Number.isFinite(high)) || Number.isNaN(middle))
		return null;
	const budget = toleranceBudget(
		effects.map(([low, high], place) => ({ low, high, sdInHalfWidths: sources[place]?.sdInHalfWidths ?? 0 })),
	);
	return { ...budget, middle, effects };
}

/** For each choice and kind the sides of all sources that together make it lowest, then highest; the middle where unknown. */
export function extremeSides(sources: readonly BudgetSource[], alone: Float64Array): (readonly (-1 | 0 | 1)[])[] {
	return choiceNames.flatMap((_, choice) =>
		Array.from({ length: sectorKinds }, (_, kind) => kind).flatMap((kind) => {
			const raising = linearBudget(sources, alone, choice, kind)?.raising ?? [];
			return [raising.map((side): -1 | 0 | 1 => (side === 1 ? -1 : side === -1 ? 1 : 0)), raising];
		}),
	);
}

/** The three budgets side by side. */
export function summariseBudgets(given: BudgetFigures): BudgetsResult {
	const { scenario, point, phases, sources, provenance } = given;
	const { name = '', values: conditions = {} } = scenario.points[point] ?? {};
	const choices = perChoice((_, choice) => choiceBudgets(given, choice));
	return {
		format: 'anglespread-budgets',
		formatVersion: 1,
		provenance,
		point: name,
		conditions,
		phases,
		sources: sources.map((source) => ({ id: source.id, name: source.name })),
		choices,
		sentence: budgetsSentence(name, choices),
		why: whyTheyDiffer(choices),
	};
}

function choiceBudgets({ sources, alone, extreme, drawn, provenance }: BudgetFigures, choice: number): ChoiceBudgets {
	const all = Array.from({ length: sectorKinds }, (_, kind) => kindFigures(drawn, choice, kind));
	const whole = Array.from({ length: drawn.length / figuresPerRun }, (_, drive) => drive).filter((drive) =>
		all.every((figures) => Number.isFinite(figures[drive])),
	);
	const kinds = all.map((figures, kind): KindBudgets | null => {
		const linear = linearBudget(sources, alone, choice, kind);
		if (!linear || !extreme) return null;
		const { middle, rootSumSquare } = linear;
		// drive 2 (6 choice + kind) is at the sides that make this figure lowest, the next at those that make it highest
		const first = 2 * (choice * sectorKinds + kind);
		const [low, high] = [first, first + 1].map((drive) => {
			const change = (kindFigures(extreme, choice, kind)[drive] ?? Number.NaN) - middle;
			return Number.isNaN(change) ? null : change;
		}) as [number | null, number | null];
		return {
			middle,
			extremeValue: { linear: linear.extreme, low, high },
			rootSumSquare,
			propagated: linear.standardDeviation,
			monteCarlo: monteCarlo(
				Float64Array.from(whole, (drive) => (figures[drive] as number) - middle),
				rootSumSquare,
			),
			effects: linear.effects,
		};
	});
	const worstKind = kinds.reduce((worst, one, kind) => (reach(one) > reach(kinds[worst] ?? null) ? kind : worst), 0);
	return {
		drawn: whole.length,
		drawnWithout: drawn.length / figuresPerRun - whole.length,
		kinds,
		without: provenance.partial && kinds.every((one) => one === null) ? [] : withoutFigure(sources, alone, choice),
		worstKind: kinds[worstKind] ? worstKind : null,
	};
}

/** How far a kind's extreme drives move, run: a lost one farther than any. By the linear sums, kinds that bend to either side would be equals. */
function reach(kind: KindBudgets | null): number {
	if (kind === null) return -1;
	const { low, high } = kind.extremeValue;
	return low === null || high === null ? Number.POSITIVE_INFINITY : Math.max(-low, high);
}

function monteCarlo(changes: Float64Array, rootSumSquare: number): KindBudgets['monteCarlo'] {
	if (changes.length < 2) return null;
	const moments = new Moments();
	let within = 0;
	for (const change of changes) {
		moments.add(change);
		if (Math.abs(change) <= rootSumSquare) within += 1;
	}
	const interval = coverageInterval(changes.sort(), 0.95);
	return {
		mean: moments.mean,
		sd: moments.sd,
		interval: interval ? [interval.low, interval.high] : null,
		min: moments.min,
		max: moments.max,
		withinRootSumSquare: within / changes.length,
	};
}

function withoutFigure(sources: readonly BudgetSource[], alone: Float64Array, choice: number): string[] {
	const kinds = Array.from({ length: sectorKinds }, (_, kind) => kindFigures(alone, choice, kind));
	const fails = (drive: number): boolean => kinds.some((figures) => !Number.isFinite(figures[drive]));
	if (fails(0)) return ['the nominal drive'];
	return sources.filter((_, place) => fails(1 + 2 * place) || fails(2 + 2 * place)).map(({ name }) => name);
}
