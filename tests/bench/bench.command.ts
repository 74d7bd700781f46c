import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { nominalCompensation } from '../../shared/study/nominal-delay.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import { nodeHost } from '../../src/host/node-host.ts';
import { createPool } from '../../src/host/pool.ts';
import { benchTolerance } from '../reference/bench-tolerance.ts';
import { report } from './bench-report.ts';
import type { BenchResult } from './bench-result.ts';
import { drawsBench, drawsReport } from './draws-savings.ts';
import { machine } from './machine.ts';
import { odexDeviation } from './odex-deviation.ts';
import { race } from './odex-race.ts';
import type { PageTools } from './page/open-built-page.ts';
import { pageBench } from './page/page-bench.ts';
import { pageReport } from './page/page-report.ts';
import { poolRate, warmUp } from './pool-rate.ts';
import { spread } from './spread.ts';

const help = `npm run bench -- [--part PART] [--repetitions N] [--json FILE]

Measures how fast the engine is: PWM periods a second through the worker pool
with one and two workers, and against a general-purpose integrator on the same
drives. Then how quick the built page is, in a browser. Takes some minutes;
close what else is running.

  --part PART       engine or page alone; default both. draws: how many drives
                    stratified draws save on each demo (some minutes)
  --repetitions N   measurements of each figure, taken in turn; 1 to 99, default 5
  --json FILE       also write the figures to this file
`;

/** Seconds: how long workers are warmed up, and how long one measurement takes. */
const warmUpTime = 0.8;
const measureTime = 0.8;

/**
 * The `bench` command.
 *
 * @param workerUrl the built workers/node-worker.ts
 * @param scenarioFolder with a trailing slash
 * @param pageTools builds, serves and opens the page
 * @param firstScenario file name of the scenario that the main figures are for
 * @returns exit code
 */
export async function bench(
	argv: readonly string[],
	workerUrl: URL,
	scenarioFolder: string,
	pageTools: PageTools,
	firstScenario = 'fan-24v.json',
): Promise<number> {
	const options = readOptions(argv);
	if (typeof options === 'string') {
		process.stderr.write(`${options}\n\n${help}`);
		return 2;
	}
	if (options.help) {
		process.stdout.write(help);
		return 0;
	}
	const say = (text: string): void => void process.stderr.write(`${text}\n`);
	const { part, json } = options;
	if (part === 'draws') {
		const pool = createPool(nodeHost(workerUrl));
		try {
			const scenarios = scenarioFiles(scenarioFolder).map((file) => planFor(scenarioFolder + file).scenario);
			const found = await drawsBench(scenarios, pool, say);
			process.stdout.write(drawsReport(found));
			if (json !== undefined) writeFileSync(json, `${JSON.stringify(found, null, '\t')}\n`);
		} finally {
			pool.close();
		}
		return 0;
	}
	const engine =
		part === 'page' ? null : await engineBench(options.repetitions, { workerUrl, scenarioFolder, firstScenario, say });
	if (engine) process.stdout.write(report(engine));
	const page = part === 'engine' ? null : await pageBench(pageTools, say);
	if (page) process.stdout.write(`${engine ? '\n' : ''}${pageReport(page)}`);
	if (json !== undefined)
		writeFileSync(json, `${JSON.stringify({ machine: machine(), ...engine, page }, null, '\t')}\n`);
	return 0;
}

interface EngineBench {
	readonly workerUrl: URL;
	readonly scenarioFolder: string;
	readonly firstScenario: string;
	readonly say: (words: string) => void;
}

async function engineBench(
	repetitions: number,
	{ workerUrl, scenarioFolder, firstScenario, say }: EngineBench,
): Promise<BenchResult> {
	const plan = planFor(scenarioFolder + firstScenario);
	const host = nodeHost(workerUrl);
	const one = createPool(host, 1);
	const two = createPool(host, 2);
	try {
		say('warming up …');
		const unitsOfOne = await warmUp(one, plan, warmUpTime, measureTime);
		const unitsOfTwo = await warmUp(two, plan, warmUpTime, measureTime);
		race(plan, 0);

		const rates = { one: [] as number[], two: [] as number[] };
		const races = [];
		for (let n = 0; n < repetitions; n++) {
			say(`measuring ${n + 1} of ${repetitions} …`);
			rates.one.push(await poolRate(one, plan, unitsOfOne));
			rates.two.push(await poolRate(two, plan, unitsOfTwo));
			races.push(race(plan, n));
		}

		const scenarios = [];
		for (const file of scenarioFiles(scenarioFolder)) {
			const other = planFor(scenarioFolder + file);
			say(`measuring ${other.scenario.name} …`);
			const units = await warmUp(two, other, warmUpTime, measureTime / 2);
			const found = [];
			for (let n = 0; n < repetitions; n++) found.push(await poolRate(two, other, units));
			scenarios.push({ name: other.scenario.name, rate: spread(found) });
		}

		say('comparing odex with the reference boards …');
		return {
			machine: machine(),
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
			segments: spread(races.map(({ segments }) => segments)).median,
			events: spread(races.map(({ events }) => events)).median,
			scenarios,
		};
	} finally {
		one.close();
		two.close();
	}
}

const scenarioFiles = (folder: string): string[] =>
	readdirSync(folder).filter((name) => /^(?!.*schema).*\.json$/.test(name));

function planFor(path: string): StudyPlan {
	const reading = readScenario(readFileSync(path, 'utf8'));
	if (!('scenario' in reading)) throw new Error(`${path}: ${JSON.stringify(reading.problems)}`);
	const scenario: Scenario = reading.scenario;
	return { scenario, seed: 'bench', compensation: nominalCompensation(scenario).compensation };
}

/** The options, or what is wrong with them. */
function readOptions(argv: readonly string[]) {
	try {
		const { values } = parseArgs({
			args: [...argv],
			options: {
				part: { type: 'string', default: 'both' },
				repetitions: { type: 'string', default: '5' },
				json: { type: 'string' },
				help: { type: 'boolean', short: 'h', default: false },
			},
		});
		const repetitions = Number(values.repetitions);
		if (!/^\d{1,2}$/.test(values.repetitions) || repetitions < 1) return '--repetitions must be 1 to 99.';
		if (!['engine', 'page', 'both', 'draws'].includes(values.part)) return '--part must be engine, page or draws.';
		return { ...values, repetitions };
	} catch (error) {
		return error instanceof Error ? error.message : String(error);
	}
}
