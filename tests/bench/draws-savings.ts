import { choiceNames, type PerChoice } from '../../shared/drive/drive.ts';
import { type ReplicateFigures, replicateFigures } from '../../shared/replicates/replicate-figures.ts';
import type { Draws } from '../../shared/sampling/draws.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { medianUnbiasedQuantile } from '../../shared/statistics/median-unbiased-quantile.ts';
import { Moments } from '../../shared/statistics/moments.ts';
import { perChoice } from '../../shared/study/per-choice.ts';
import { pointPlan } from '../../shared/study/point-plan.ts';
import { choiceWords } from '../../shared/words/names.ts';
import type { Pool } from '../../src/host/pool.ts';
import { runPlansInPool } from '../../src/host/run-plans.ts';

/** Units of a replicate, and replicates of each kind of draws. */
const units = 64;
const replicates = 128;

const kinds = ['independent', 'latin', 'sobol'] as const;
const figures = {
	'mean error': (of: Figures, choice: 'halfBus') => of.meanError[choice],
	'95th percentile': (of: Figures, choice: 'halfBus') =>
		medianUnbiasedQuantile(Float64Array.from(of.errors[choice]).sort(), 0.95),
	'passing share': (of: Figures, choice: 'halfBus') => of.passed[choice] / units,
};
type Figures = ReplicateFigures['points'][0];
type FigureName = keyof typeof figures;

/** How many times as many independent units have the same variance, by kind; null where a figure has none or lock was lost. */
export interface Savings {
	readonly scenario: string;
	readonly point: string;
	readonly latin: Readonly<Record<FigureName, PerChoice<number | null>>>;
	readonly sobol: Readonly<Record<FigureName, PerChoice<number | null>>>;
}

export interface DrawsBench {
	readonly units: number;
	readonly replicates: number;
	/** Factor either way within which a ratio of two variances lies in 95 %: exp(1.96 · √(2 · 2/(R − 1))). */
	readonly uncertainty: number;
	readonly scenarios: readonly Savings[];
}

/** Variances over replicates of each kind of draws, at each scenario's reference point. */
export async function drawsBench(
	scenarios: readonly Scenario[],
	pool: Pool,
	say: (words: string) => void,
): Promise<DrawsBench> {
	const found: Savings[] = [];
	for (const scenario of scenarios) {
		say(`drawing ${scenario.name} …`);
		found.push(await savings(scenario, pool));
	}
	return { units, replicates, uncertainty: Math.exp(1.96 * Math.sqrt(4 / (replicates - 1))), scenarios: found };
}

async function savings(whole: Scenario, pool: Pool): Promise<Savings> {
	const place = whole.referencePoint;
	const none = { seed: '', compensation: { halfBus: 0, virtualNeutral: 0 } };
	const { scenario } = pointPlan(whole, place, none);
	const drawsOf = (kind: (typeof kinds)[number]): Draws => (kind === 'latin' ? { kind, units } : { kind });
	const { results } = await runPlansInPool(
		{
			runs: kinds.flatMap((kind) =>
				Array.from({ length: replicates }, (_, i) => ({ scenario, seed: `savings ${i}`, draws: drawsOf(kind) })),
			),
			units,
			summarise: async (_, study) => replicateFigures(scenario, study).points[0] as Figures,
		},
		pool,
	);
	const variance = (kind: number, name: FigureName, choice: 'halfBus'): number => {
		const moments = new Moments();
		for (const each of results.slice(kind * replicates, (kind + 1) * replicates))
			moments.add(figures[name](each, choice));
		return moments.squares / (moments.count - 1);
	};
	const gains = (kind: number): Savings['sobol'] =>
		Object.fromEntries(
			(Object.keys(figures) as FigureName[]).map((name) => [
				name,
				perChoice((choice) => {
					const gain = variance(0, name, choice as 'halfBus') / variance(kind, name, choice as 'halfBus');
					return Number.isFinite(gain) ? gain : null;
				}),
			]),
		) as Savings['sobol'];
	return { scenario: whole.name, point: scenario.points[0]?.name ?? '', latin: gains(1), sobol: gains(2) };
}

/** The bench as a text. */
export function drawsReport({ units: each, replicates: count, uncertainty, scenarios }: DrawsBench): string {
	const lines = [
		`Drives saved by stratified draws: variance of independent draws over theirs, ${each} drives a replicate,`,
		`${count} replicates, at the reference point; true within a factor of ${uncertainty.toFixed(2)} either way (95 %).`,
		'',
		`${'scenario, choice'.padEnd(46)}${'draws'.padEnd(9)}mean   95th %   passing`,
	];
	for (const { scenario, latin, sobol } of scenarios) {
		for (const choice of choiceNames) {
			for (const [kind, gains] of Object.entries({ latin, sobol })) {
				const words = (name: FigureName): string => gains[name][choice]?.toFixed(1) ?? '–';
				lines.push(
					`${`${scenario}, ${choiceWords[choice]}`.padEnd(46)}${kind.padEnd(9)}${words('mean error').padStart(4)}   ${words('95th percentile').padStart(6)}   ${words('passing share').padStart(7)}`,
				);
			}
		}
	}
	return `${lines.join('\n')}\n`;
}
