import { choiceNames, type PerChoice } from '../../shared/drive/drive.ts';
import { perChoice } from '../../shared/drive/per-choice.ts';
import type { Draws } from '../../shared/sampling/draws.ts';
import { stream } from '../../shared/sampling/stream.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { medianUnbiasedQuantile } from '../../shared/statistics/median-unbiased-quantile.ts';
import { Moments } from '../../shared/statistics/moments.ts';
import { cellsOf } from '../../shared/study/choice-figures.ts';
import { finishedUnits, type StudyColumns } from '../../shared/study/merge.ts';
import { pointPlan } from '../../shared/study/point-plan.ts';
import { unitFigureValues } from '../../shared/study/unit-figures.ts';
import { unitJudge } from '../../shared/study/unit-passes.ts';
import { choiceWords } from '../../shared/words/names.ts';
import type { Pool } from '../../src/host/pool.ts';
import { runPlansInPool } from '../../src/host/run-plans.ts';

/** Units of a replicate, and replicates of each kind of draws. */
const units = 64;
const replicates = 32;
/** Samples taken anew out of all independent units, for the variance that 64 of them have. */
const resamples = 4000;

const kinds = ['independent', 'latin', 'sobol'] as const;
type Kind = (typeof kinds)[number];

/** One unit's figures. */
interface Unit {
	readonly mean: number;
	readonly error: number;
	readonly passes: boolean;
}

const figures = {
	'mean error': (of: readonly Unit[]) => of.reduce((sum, { mean }) => sum + mean, 0) / of.length,
	'95th percentile': (of: readonly Unit[]) =>
		medianUnbiasedQuantile(Float64Array.from(of, ({ error }) => error).sort(), 0.95),
	'passing share': (of: readonly Unit[]) => of.filter(({ passes }) => passes).length / of.length,
};
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
	/** Factor either way within which a variance over replicates lies in 95 %: exp(1.96 √(2/(R − 1))). */
	readonly uncertainty: number;
	readonly scenarios: readonly Savings[];
}

/** Variances over replicates of each kind of draws, at every point of each scenario. */
export async function drawsBench(
	scenarios: readonly Scenario[],
	pool: Pool,
	say: (words: string) => void,
): Promise<DrawsBench> {
	const found: Savings[] = [];
	for (const scenario of scenarios) {
		for (const point of scenario.points.keys()) {
			const own = await savings(scenario, point, pool);
			say(rows(own).join('\n'));
			found.push(own);
		}
	}
	return { units, replicates, uncertainty: Math.exp(1.96 * Math.sqrt(2 / (replicates - 1))), scenarios: found };
}

async function savings(whole: Scenario, point: number, pool: Pool): Promise<Savings> {
	const none = { seed: '', compensation: { halfBus: 0, virtualNeutral: 0 } };
	const { scenario } = pointPlan(whole, point, none);
	const drawsOf = (kind: Kind): Draws => (kind === 'latin' ? { kind, units } : { kind });
	const { results } = await runPlansInPool(
		{
			runs: kinds.flatMap((kind) =>
				Array.from({ length: replicates }, (_, i) => ({ scenario, seed: `savings ${i}`, draws: drawsOf(kind) })),
			),
			units,
			summarise: async (_, study) => perChoice((_, choice) => unitsOf(scenario, study, choice)),
		},
		pool,
	);
	const of = (kind: Kind): typeof results => {
		const place = kinds.indexOf(kind);
		return results.slice(place * replicates, (place + 1) * replicates);
	};
	const gains = (kind: Kind): Savings['sobol'] =>
		Object.fromEntries(
			(Object.keys(figures) as FigureName[]).map((name) => [
				name,
				perChoice((choice) => {
					const independent = of('independent').flatMap((each) => each[choice]);
					const own = of(kind).map((each) => figures[name](each[choice]));
					const gain = variance(resampled(independent, figures[name])) / variance(own);
					return Number.isFinite(gain) ? gain : null;
				}),
			]),
		) as Savings['sobol'];
	return { scenario: whole.name, point: scenario.points[0]?.name ?? '', latin: gains('latin'), sobol: gains('sobol') };
}

function unitsOf(scenario: Scenario, study: StudyColumns, choice: number): readonly Unit[] {
	const finished = finishedUnits(study);
	const cells = cellsOf({ study, finished, point: 0, choice });
	const means = unitFigureValues(study.columns, cells, 'mean');
	const errors = unitFigureValues(study.columns, cells, 'error95');
	const judge = unitJudge(scenario);
	return Array.from(finished, (unit, i) => ({
		mean: means[i] as number,
		error: errors[i] as number,
		passes: judge.passes(study.columns, unit, choice),
	}));
}

/** The figure of samples of as many units as a replicate has, drawn out of `all` with replacement. */
function resampled(all: readonly Unit[], figure: (of: readonly Unit[]) => number): number[] {
	const random = stream('savings', 'resamples');
	return Array.from({ length: resamples }, () =>
		figure(Array.from({ length: units }, () => all[Math.floor(random.double() * all.length)] as Unit)),
	);
}

function variance(values: readonly number[]): number {
	const moments = new Moments();
	for (const value of values) moments.add(value);
	return moments.squares / (moments.count - 1);
}

/** Room for the longest name of a demo, a point and a choice. */
const labelWidth = 56;

/** The bench as a text. */
export function drawsReport({ units: drives, replicates: count, uncertainty, scenarios }: DrawsBench): string {
	const lines = [
		`Drives saved by stratified draws: variance of independent draws over theirs, ${drives} drives a replicate,`,
		`${count} replicates; true within a factor of ${uncertainty.toFixed(2)} either way (95 %).`,
		'',
		`${'scenario, point, choice'.padEnd(labelWidth)}${'draws'.padEnd(9)}mean   95th %   passing`,
	];
	for (const each of scenarios) lines.push(...rows(each));
	return `${lines.join('\n')}\n`;
}

function rows({ scenario, point, latin, sobol }: Savings): string[] {
	return choiceNames.flatMap((choice) =>
		Object.entries({ latin, sobol }).map(([kind, gains]) => {
			const words = (name: FigureName, width: number): string =>
				(gains[name][choice]?.toFixed(1) ?? '–').padStart(width);
			const label = `${scenario}, ${point}, ${choiceWords[choice]}`.padEnd(labelWidth) + kind.padEnd(9);
			return `${label}${words('mean error', 4)}   ${words('95th percentile', 6)}   ${words('passing share', 7)}`;
		}),
	);
}
