import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { nodeHost } from '../../src/host/node-host.ts';
import { createPool } from '../../src/host/pool.ts';
import { changes, comparable, keepBaseline, readBaseline } from './baseline.ts';
import { changesReport, engineReport, growthReport, machineReport, startReport } from './bench-report.ts';
import type { BenchParts } from './bench-result.ts';
import { demoFiles, demoScenario } from './demos.ts';
import { drawsBench, drawsReport } from './draws-savings.ts';
import { engineBench } from './engine-bench.ts';
import { growthBench } from './growth-bench.ts';
import type { kernelCounts } from './kernel-counts.ts';
import { machine } from './machine.ts';
import type { PageTools } from './page/open-built-page.ts';
import { pageBench } from './page/page-bench.ts';
import { pageReport } from './page/page-report.ts';
import { startBench } from './start-bench.ts';

const parts = ['engine', 'growth', 'start', 'page'] as const;
/** `draws` takes minutes of its own and only where it is asked for. */
const allParts = [...parts, 'draws'] as const;
type Part = (typeof allParts)[number];

const help = `npm run bench -- [--part PART] [--repetitions N] [--units N] [--json FILE]
                 [--keep-baseline]

Measures how fast the engine is, how time and memory grow with the number of
drives, how long one waits for a first answer, and how quick the built page is
in a browser; and shows what changed against the baseline kept. Takes some
minutes; close what else is running.

  --part PART       ${parts.join(', ')} alone; may be given again.
                    draws: how many drives stratified draws save on each demo
  --repetitions N   measurements of each figure, taken in turn; 1 to 99, default 5
  --units N         most drives that growth is followed to, from 1000 to
                    1000000, default 100000; a million take a quarter of an hour
  --json FILE       also write the figures to this file
  --keep-baseline   keep this run's ratios and counts as the new baseline
`;

/** What src/tooling does for the bench; handed in, since the bench is bundled and those files know where they lie. */
export interface BenchTools {
	/** The built command line's folder. */
	readonly product: URL;
	/** With a trailing slash. */
	readonly scenarioFolder: string;
	/** What `npm start` runs. */
	readonly startProgram: string;
	readonly baselineFile: string;
	readonly page: PageTools;
	/** `kernelCounts` of a build that counts. */
	readonly counts: () => Promise<typeof kernelCounts>;
}

/** The scenario that the main figures are for. */
const firstScenario = 'fan-24v.json';

/**
 * The `bench` command.
 *
 * @returns exit code
 */
export async function bench(argv: readonly string[], tools: BenchTools): Promise<number> {
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
	const print = (text: string): void => void process.stdout.write(`\n${text}`);
	const { repetitions, units, json } = options;
	const asked = (part: Part): boolean => options.part.includes(part) || (options.part.length === 0 && part !== 'draws');
	const scenario = tools.scenarioFolder + firstScenario;
	const study = fileURLToPath(new URL('study.js', tools.product));
	const measuredOn = machine();
	process.stdout.write(machineReport(measuredOn));

	const engine = asked('engine')
		? await engineBench(repetitions, {
				workerUrl: new URL('node-worker.js', tools.product),
				scenarioFolder: tools.scenarioFolder,
				firstScenario,
				counts: await tools.counts(),
				say,
			})
		: null;
	if (engine) print(engineReport(engine));
	const growth = asked('growth') ? await growthBench(study, scenario, units, say) : null;
	if (growth) print(growthReport(growth));
	if (asked('start')) {
		await tools.page.build();
		say('starting again and again …');
	}
	const start = asked('start') ? await startBench(study, tools.startProgram, scenario, repetitions) : null;
	if (start) print(startReport(start));
	const page = asked('page') ? await pageBench(tools.page, say) : null;
	if (page) print(pageReport(page));
	const draws = asked('draws') ? await measureDraws(tools, say) : null;
	if (draws) print(drawsReport(draws));

	const result: BenchParts = { engine, growth, start, page };
	const figures = comparable(result);
	const baseline = readBaseline(tools.baselineFile);
	const changed = baseline && changes(baseline, figures);
	if (baseline && changed) {
		print(changesReport(baseline, changed, Object.keys(figures).filter((name) => name in baseline.figures).length));
	}
	if (options['keep-baseline']) {
		keepBaseline(tools.baselineFile, { machine: measuredOn, figures }, parts.every(asked));
	}
	if (json !== undefined) {
		const all = { machine: measuredOn, ...result, draws, figures, changed };
		writeFileSync(json, `${JSON.stringify(all, null, '\t')}\n`);
	}
	return 0;
}

async function measureDraws({ product, scenarioFolder }: BenchTools, say: (text: string) => void) {
	const pool = createPool(nodeHost(new URL('node-worker.js', product)));
	try {
		return await drawsBench(
			demoFiles(scenarioFolder).map((file) => demoScenario(scenarioFolder + file)),
			pool,
			say,
		);
	} finally {
		pool.close();
	}
}

/** The options, or what is wrong with them. */
function readOptions(argv: readonly string[]) {
	try {
		const { values } = parseArgs({
			args: [...argv],
			options: {
				part: { type: 'string', multiple: true, default: [] },
				repetitions: { type: 'string', default: '5' },
				units: { type: 'string', default: '100000' },
				json: { type: 'string' },
				'keep-baseline': { type: 'boolean', default: false },
				help: { type: 'boolean', short: 'h', default: false },
			},
		});
		const repetitions = Number(values.repetitions);
		const units = Number(values.units);
		if (!/^\d{1,2}$/.test(values.repetitions) || repetitions < 1) return '--repetitions must be 1 to 99.';
		if (!/^\d{4,7}$/.test(values.units) || units < 1000 || units > 1e6) return '--units must be 1000 to 1000000.';
		if (!values.part.every((part) => allParts.includes(part as Part))) return `--part must be ${allParts.join(', ')}.`;
		return { ...values, repetitions, units };
	} catch (error) {
		return error instanceof Error ? error.message : String(error);
	}
}
