import { choiceNames } from '../../shared/drive/drive.ts';
import { perChoice } from '../../shared/drive/per-choice.ts';
import { digestOfAll, sha256 } from '../../shared/scenario/digest.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { failUnits, finishedUnits, mergeShard } from '../../shared/study/merge.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import { requirementOf } from '../../shared/study/unit-passes.ts';
import { requirementSentence } from '../../shared/study/verdict-sentence.ts';
import { type VariantFigures, variantFigures } from '../../shared/variants/variant-figures.ts';
import { variantMethods } from '../../shared/variants/variant-methods.ts';
import { type Cell, type Filter, isSameFilter } from '../../shared/votes/cell.ts';
import { cellFigures } from '../../shared/votes/cell-figures.ts';
import { equalNoise } from '../../shared/votes/equal-noise.ts';
import { finalists } from '../../shared/votes/finalists.ts';
import { type CellColumns, cellColumns, emptyCellColumns } from '../../shared/votes/run-votes.ts';
import { tighterResistors } from '../../shared/votes/tighter-resistors.ts';
import type { ChoiceVotes, VotesResult } from '../../shared/votes/votes-result.ts';
import { votesSentence } from '../../shared/votes/votes-sentence.ts';
import { CountedWork } from './counted-work.ts';
import { type FoundCompensation, findCompensations } from './find-compensation.ts';
import { onOwnWorkers } from './on-own-workers.ts';
import type { Pool } from './pool.ts';
import { provenanceOf } from './provenance.ts';
import { columnsWithoutHistograms } from './run-variants.ts';
import { silenceLimitOf } from './silence-limit.ts';
import { onTopOf, type WorkRequest } from './work-request.ts';

export interface VotesRequest extends WorkRequest {
	/** Of each run. */
	readonly units: number;
	/** The scenario's own filter among them. */
	readonly filters: readonly Filter[];
	/** V, rising, the scenario's own noise among them. */
	readonly sigmas: readonly number[];
}

/** Noise at which the scenario's filter and single readings are judged as well, to tell what another filter is worth: falling, as shares of the scenario's. */
const noiseSteps: readonly number[] = [1, 0.84, 0.71, 0.59, 0.5, 0.42, 0.35, 0.3, 0.25, 0.21, 0.18, 0.15, 0.125];

const single: Filter = { votes: 1, window: 1 };

const methods = {
	'votes against noise':
		"exact chances of every sector from its noise-free readings, Gaussian noise independent from reading to reading; the waveform is that of the scenario's own filter up to its acceptance: another filter would commutate at other times, which the full runs of the finalists contain",
	'compensation of each filter':
		'as the scenario states it; where it says nominal, found anew for each filter on the nominal drive',
	'pass %':
		"drives that keep the hourly and the angle limit with the cell's filter and noise, and lock and torque as they ran with the scenario's own; the share of commutations within the angle limit is that to be expected from the exact chances of when each crossing is accepted",
	'accepts after': "from the EMF's crossing, mean over the sectors of all drives, at the point where it is longest",
};

export const runVotes = onOwnWorkers(runVotesInPool);

/** Judges filters and noise on one set of readings, and simulates the finalists in full on fresh drives. */
export async function runVotesInPool(request: VotesRequest, pool: Pool): Promise<VotesResult> {
	const { scenario, seed, units, filters, sigmas, signal } = request;
	const own = ownFilter(scenario);
	const found = await compensations(scenario, filters, pool, signal);
	const cell = (filter: Filter, sigma: number): Cell => ({
		...filter,
		sigma,
		compensation: found.of(filter).compensation,
	});
	const grid = filters.flatMap((filter) => sigmas.map((sigma) => cell(filter, sigma)));
	// what the best filter may be held against, at falling noise
	const bases = filters.filter((filter) => isSameFilter(filter, own) || isSameFilter(filter, single));
	const steps = bases.flatMap((base) => noiseSteps.map((share) => cell(base, share * own.sigma)));
	const work = new VotesWork(request, found.of(own), pool);

	const plane = await work.plane(scenario, [...grid, ...steps]);
	const tightened = tighterResistors(scenario);
	const tighterPlane = tightened && work.isComplete ? await work.plane(tightened.scenario, grid) : null;
	const requirement = requirementOf(scenario);
	const judged = finishedUnits(plane.study).length;
	const choices = perChoice((_, place) => {
		const figures = cellFigures({ scenario, ...plane }, place);
		const cells = figures.slice(0, grid.length);
		const chosen =
			judged === 0
				? []
				: finalists(
						cells.filter(({ sigma }) => sigma === own.sigma),
						own,
						{ units: judged, notSimulated: plane.study.failures.length },
						requirement,
					);
		const best = chosen.find(({ reasons }) => reasons.includes('most drives pass'));
		const base = best === undefined ? undefined : bases.find((filter) => !isSameFilter(filter, best));
		const ladder = figures
			.slice(grid.length)
			.filter((one) => base !== undefined && isSameFilter(one, base))
			.map(({ sigma, crossingsPerHour }) => ({ sigma, perHour: crossingsPerHour.all }));
		return {
			cells,
			chosen,
			base: base ?? null,
			equalNoise: best === undefined ? null : equalNoise(ladder, best.predicted),
		};
	});

	const confirmationSeed = `${seed} fresh`;
	const tried = filters.filter((filter) =>
		choiceNames.some((choice) => choices[choice].chosen.some((one) => isSameFilter(one, filter))),
	);
	const confirmed = await work.full(confirmationSeed, tried, found.of);
	const result: Omit<VotesResult, 'sentence'> = {
		format: 'anglespread-votes',
		formatVersion: 2,
		provenance: await provenanceOf({
			scenario,
			seed,
			found: found.of(own),
			digests: work.digests,
			units: work.done,
			partial: !work.isComplete,
			failures: work.failures,
			methods: { ...methods, ...variantMethods },
		}),
		requirement: { ...requirement, sentence: requirementSentence(requirement) },
		unitsPerRun: units,
		judged,
		confirmationSeed,
		own,
		filters,
		sigmas,
		choices: perChoice((choice): ChoiceVotes => {
			const { chosen, ...rest } = choices[choice];
			return {
				...rest,
				finalists: chosen.map((one) => ({
					...one,
					confirmed: confirmed[tried.findIndex((filter) => isSameFilter(filter, one))]?.choices[choice] ?? null,
				})),
			};
		}),
		tighter:
			tightened && tighterPlane && work.isComplete
				? {
						words: tightened.words,
						judged: finishedUnits(tighterPlane.study).length,
						cells: perChoice((_, place) => cellFigures({ scenario: tightened.scenario, ...tighterPlane }, place)),
					}
				: null,
	};
	return { ...result, sentence: votesSentence(result) };
}

/** The filter and the noise that a scenario states. */
export const ownFilter = ({ values }: Scenario): Filter & { readonly sigma: number } => ({
	votes: values['detection.majorityVotes'] as number,
	window: values['detection.majorityWindow'] as number,
	sigma: values['noise.sigma'] as number,
});

const filterValues = ({ votes, window }: Filter) => ({
	'detection.majorityVotes': votes,
	'detection.majorityWindow': window,
});

const withFilter = (scenario: Scenario, filter: Filter): Scenario => ({
	...scenario,
	values: { ...scenario.values, ...filterValues(filter) },
});

/** What the firmware takes off with each filter. */
async function compensations(
	scenario: Scenario,
	filters: readonly Filter[],
	pool: Pool,
	signal: AbortSignal | undefined,
) {
	const found = await findCompensations(
		filters.map((filter) => withFilter(scenario, filter)),
		pool,
		silenceLimitOf(scenario),
		signal,
	);
	return {
		of: (filter: Filter): FoundCompensation =>
			found[filters.findIndex((one) => isSameFilter(one, filter))] as FoundCompensation,
	};
}

/** The runs one after another, and what became of their units. */
class VotesWork extends CountedWork<VotesRequest> {
	/** A scenario's drives with its own filter, their readings judged under every cell. */
	async plane(scenario: Scenario, cells: readonly Cell[]) {
		const { done, found, pool, request } = this;
		const { seed, units, signal, shardSize } = request;
		const study = columnsWithoutHistograms(scenario, units);
		const cellsPerUnit = cells.length * scenario.points.length * choiceNames.length;
		const columns = emptyCellColumns(units * cellsPerUnit);
		const plan: StudyPlan = { scenario, seed, compensation: found.compensation };
		const tell = onTopOf(done, request);
		this.isComplete &&= await pool.run({
			name: 'unitsOfVotes',
			input: { plan, cells },
			to: units,
			signal,
			silenceLimit: silenceLimitOf(scenario),
			shardSize,
			onShard({ shard, cells: part }, from) {
				mergeShard(study, shard);
				for (const name of cellColumns) columns[name].set(part[name], from * cellsPerUnit);
			},
			onFailure: (from, to, message) => failUnits(study, from, to, message),
			onProgress: (now) =>
				tell({ asked: units, finished: Math.max(0, now - study.failures.length), failed: study.failures.length }),
		});
		this.digests.push(await columnsDigest(columns));
		await this.count(study, found.failure);
		return { study, columns, cells };
	}

	/** Drives simulated in full with each filter; none where the work was cut short. */
	async full(
		seed: string,
		filters: readonly Filter[],
		of: (filter: Filter) => FoundCompensation,
	): Promise<readonly VariantFigures[]> {
		if (!this.isComplete || filters.length === 0) return [];
		const variants = filters.map((filter) => ({
			values: filterValues(filter),
			compensation: of(filter).compensation,
		}));
		const studies = await this.run(variants, { seed });
		const { scenario } = this.request;
		return this.isComplete
			? studies.map((study, place) => variantFigures(withFilter(scenario, filters[place] as Filter), study))
			: [];
	}
}

async function columnsDigest(columns: CellColumns): Promise<string> {
	const digests = await Promise.all(cellColumns.map((name) => sha256(new Uint8Array(columns[name].buffer))));
	return digestOfAll(digests);
}
