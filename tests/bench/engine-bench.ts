import type { StudyPlan } from '../../shared/study/plan.ts';
import { nodeHost } from '../../src/host/node-host.ts';
import { createPool } from '../../src/host/pool.ts';
import { benchTolerance } from '../reference/bench-tolerance.ts';
import type { BenchResult } from './bench-result.ts';
import { costTable } from './cost-table.ts';
import { demoFiles, demoScenario } from './demos.ts';
import type { kernelCounts } from './kernel-counts.ts';
import { odexDeviation } from './odex-deviation.ts';
import { race, warmRace } from './odex-race.ts';
import { planOf } from './plan-of.ts';
import { poolRate, warmUp } from './pool-rate.ts';
import { spread } from './spread.ts';
import { utilisations } from './utilisation.ts';

/** Seconds: how long a thread is warmed up (its rate still rises in the second after the first), and how long one measurement takes. */
const warmUpTime = 3;
const measureTime = 0.8;

interface EngineBench {
	/** The built workers/node-worker.ts. */
	readonly workerUrl: URL;
	/** With a trailing slash. */
	readonly scenarioFolder: string;
	/** File name of the scenario that the main figures are for. */
	readonly firstScenario: string;
	/** Of the build that counts. */
	readonly counts: typeof kernelCounts;
	readonly say: (words: string) => void;
}

/** Measures the engine alone: rates, the race, every demo, what changes the cost, and how busy it keeps its workers. */
export async function engineBench(
	repetitions: number,
	{ workerUrl, scenarioFolder, firstScenario, counts, say }: EngineBench,
): Promise<BenchResult> {
	const plan = planIn(scenarioFolder + firstScenario);
	const host = nodeHost(workerUrl);
	const one = createPool(host, 1);
	const two = createPool(host, 2);
	try {
		say('warming up …');
		const unitsOfOne = await warmUp(one, plan, warmUpTime, measureTime);
		const unitsOfTwo = await warmUp(two, plan, warmUpTime, measureTime);
		warmRace(plan, warmUpTime);

		const rates = { one: [] as number[], two: [] as number[] };
		const races = [];
		for (let n = 0; n < repetitions; n++) {
			say(`measuring ${n + 1} of ${repetitions} …`);
			rates.one.push(await poolRate(one, plan, unitsOfOne));
			rates.two.push(await poolRate(two, plan, unitsOfTwo));
			races.push(race(plan, n));
		}

		const demos: { readonly plan: StudyPlan; readonly units: number; readonly rates: number[] }[] = [];
		const others = demoFiles(scenarioFolder);
		for (const file of [firstScenario, ...others.filter((name) => name !== firstScenario)]) {
			const other = planIn(scenarioFolder + file);
			say(`warming up for ${other.scenario.name} …`);
			demos.push({ plan: other, units: await warmUp(two, other, warmUpTime, measureTime / 2), rates: [] });
		}
		for (let n = 0; n < repetitions; n++) {
			say(`measuring every demo, ${n + 1} of ${repetitions} …`);
			for (const demo of demos) demo.rates.push(await poolRate(two, demo.plan, demo.units));
		}
		const scenarios = demos.map((demo) => ({
			name: demo.plan.scenario.name,
			rate: spread(demo.rates),
			overFirst: spread(demo.rates.map((rate, n) => rate / (demos[0]?.rates[n] as number))),
			counts: counts(demo.plan),
		}));

		say('measuring what changes the cost …');
		const costs = await costTable(two, plan.scenario, repetitions, measureTime / 2);

		say('comparing odex with the reference boards …');
		return {
			repetitions,
			scenario: plan.scenario.name,
			oneWorker: spread(rates.one),
			twoWorkers: spread(rates.two),
			twoOverOne: spread(rates.two.map((rate, n) => rate / (rates.one[n] as number))),
			engineSeconds: spread(races.map(({ engine }) => engine)),
			odexSeconds: spread(races.map(({ odex }) => odex)),
			overOdex: spread(races.map(({ engine, odex }) => odex / engine)),
			odexTolerance: benchTolerance.relative as number,
			odexDeviation: odexDeviation(),
			sectors: races.reduce((sum, { sectors }) => sum + sectors, 0),
			differing: races.reduce((sum, { differing }) => sum + differing, 0),
			scenarios,
			costs,
			utilisations: await utilisations(host, plan.scenario, say),
		};
	} finally {
		one.close();
		two.close();
	}
}

const planIn = (path: string): StudyPlan => planOf(demoScenario(path));
