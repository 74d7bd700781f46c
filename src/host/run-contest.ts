import { cellFigures } from '../../shared/contest/cell-figures.ts';
import type { CellFigures, ContestResult } from '../../shared/contest/contest-result.ts';
import { contestSentence, type MapProgress } from '../../shared/contest/contest-sentence.ts';
import type { Axis } from '../../shared/range/axis.ts';
import { rangeAxis } from '../../shared/range/range-result.ts';
import { type Setting, settingProblems, settingsOf, variantAt } from '../../shared/range/setting.ts';
import { digestOfAll } from '../../shared/scenario/digest.ts';
import type { Scenario } from '../../shared/scenario/scenario.ts';
import { confidenceLevel } from '../../shared/study/confidence-level.ts';
import { looks } from '../../shared/study/looks.ts';
import { failUnits, failuresInOrder, mergeShard, type StudyColumns } from '../../shared/study/merge.ts';
import { resultDigest } from '../../shared/study/result-digest.ts';
import { requirementOf } from '../../shared/study/unit-passes.ts';
import { requirementSentence } from '../../shared/study/verdict-sentence.ts';
import { variantStretches } from '../../shared/variants/run-variants.ts';
import { type Variant, variantScenario } from '../../shared/variants/variant.ts';
import { findCompensation } from './find-compensation.ts';
import { onOwnWorkers } from './on-own-workers.ts';
import type { Pool } from './pool.ts';
import { provenanceOf } from './provenance.ts';
import { columnsWithoutHistograms, type WorkProgress } from './run-variants.ts';
import { silenceLimitOf } from './silence-limit.ts';
import type { WorkRequest } from './work-request.ts';

export interface ContestRequest extends WorkRequest {
	/** Index of the operating point that lends the other conditions. */
	readonly point: number;
	readonly speed: Axis;
	readonly torque: Axis;
	/** At most, at each cell. */
	readonly units: number;
	/** Takes the map so far, a few times a second. */
	readonly onPartial?: (result: ContestResult) => void;
}

/** Units that every cell takes before it is looked at for the first time, and how many times as many each further look has. */
const firstLook = 24;
const growth = 1.5;
/** Between two maps so far, ms. */
const patience = 300;

/** Runs a contest on workers of its own. */
export const runContest = onOwnWorkers(runContestInPool);

/**
 * The same on workers that live on. After each look further units are sent to
 * the cells that are not decided, all of them as one job; a look depends on
 * whole units in index order alone, so that the map is the same for any number of workers.
 */
export async function runContestInPool(request: ContestRequest, pool: Pool): Promise<ContestResult> {
	const { scenario, point, speed, torque, seed, units, signal, onProgress = () => {}, onPartial } = request;
	const silenceLimit = silenceLimitOf(scenario);
	const found = await findCompensation(scenario, pool, silenceLimit, signal);
	const cells = settingsOf([speed, torque]).map((at) => new Cell(request, at));
	const runnable = cells.filter(({ leftOut }) => leftOut === null);
	const level = 1 - (1 - confidenceLevel) / Math.max(1, runnable.length);
	let isComplete = true;
	let toldAt = performance.now();

	const ground = await provenanceOf({
		scenario,
		seed,
		found,
		digests: '',
		units: progressOf([]),
		partial: true,
		failures: [],
		methods,
	});
	const requirement = requirementOf(scenario);
	const result = (is: MapProgress, digest: string): ContestResult => {
		const answered: Omit<ContestResult, 'sentence'> = {
			format: 'anglespread-contest',
			formatVersion: 1,
			provenance: {
				...ground,
				partial: is !== 'finished',
				resultDigest: digest,
				units: progressOf(runnable),
				failures: runnable.flatMap(({ study }) => failuresInOrder(study)),
			},
			requirement: { ...requirement, sentence: requirementSentence(requirement) },
			point: scenario.points[point]?.name ?? '',
			speed: rangeAxis(speed),
			torque: rangeAxis(torque),
			unitsAtMost: units,
			cells: cells.map((cell) => ({ at: cell.at, leftOut: cell.leftOut, figures: cell.figures(level) })),
		};
		return { ...answered, sentence: contestSentence(answered, is) };
	};
	const tell = (): void => {
		if (!onPartial || performance.now() - toldAt < patience) return;
		toldAt = performance.now();
		onPartial(result('so far', ''));
	};

	for (const [from, to] of stagesOf(units)) {
		if (!isComplete) break;
		const open = runnable.filter((cell) => from === 0 || cell.figures(level)?.better === 'not shown');
		if (open.length === 0) break;
		for (const cell of open) cell.asked = to;
		if (found.failure !== undefined) {
			for (const { study } of open) failUnits(study, from, to, found.failure);
			break;
		}
		isComplete = await pool.run({
			name: 'unitsOfVariants',
			input: {
				plan: { scenario, seed, compensation: found.compensation },
				variants: open.map(({ variant }) => variant),
			},
			from: from * open.length,
			to: to * open.length,
			signal,
			silenceLimit: Math.max(...open.map(({ scenario: own }) => silenceLimitOf(own))),
			shardSize: request.shardSize,
			shardTime: patience / 2,
			onShard({ parts }) {
				for (const { variant, shard } of parts) mergeShard((open[variant] as Cell).study, shard);
				tell();
			},
			onFailure(first, end, message) {
				for (const part of variantStretches(open.length, first, end)) {
					failUnits((open[part.variant] as Cell).study, part.first, part.end, message);
				}
			},
			onProgress: () => onProgress(progressOf(runnable)),
		});
	}
	const digests = await Promise.all(runnable.map(({ study }) => resultDigest(study)));
	return result(isComplete ? 'finished' : 'stopped', await digestOfAll(digests));
}

const methods: Readonly<Record<string, string>> = {
	'better choice':
		'smaller error (95 % quantile of |angle errors| over all starts) in more than half of the drives that differ, by a confidence sequence for that share; the level is shared out over all cells (Bonferroni), so that the statement is on the whole map, however often a cell is looked at; drives that could not be simulated count against either choice',
	requirement: "confidence sequence for the passing share, with the requirement's confidence at each cell",
};

/** One speed and torque: its study grows from look to look. */
class Cell {
	readonly at: Setting;
	readonly leftOut: string | null;
	readonly variant: Variant;
	readonly scenario: Scenario;
	readonly study: StudyColumns;
	/** Units it is to take, as far as is known. */
	asked = 0;
	private known: { readonly done: number; readonly figures: CellFigures | null } = { done: 0, figures: null };

	constructor({ scenario, point, units }: ContestRequest, at: Setting) {
		const ranging = { scenario, point, load: 'constant' as const };
		this.at = at;
		this.leftOut = settingProblems(ranging, at)[0]?.message ?? null;
		this.variant = variantAt(ranging, at);
		this.scenario = variantScenario(scenario, this.variant);
		this.study = columnsWithoutHistograms(this.scenario, this.leftOut === null ? units : 0);
	}

	/** Of the units done so far; worked out anew only where there are more. */
	figures(level: number): CellFigures | null {
		const done = doneOf(this);
		if (done !== this.known.done) this.known = { done, figures: cellFigures(this.scenario, this.study, level) };
		return this.known.figures;
	}
}

const doneOf = ({ study }: Cell): number => study.states.reduce((sum, state) => sum + (state > 0 ? 1 : 0), 0);

function progressOf(cells: readonly Cell[]): WorkProgress {
	const failed = cells.reduce((sum, { study }) => sum + study.failures.length, 0);
	return {
		asked: cells.reduce((sum, { asked }) => sum + asked, 0),
		finished: cells.reduce((sum, cell) => sum + doneOf(cell), 0) - failed,
		failed,
	};
}

/** Units from one look to the next. */
function stagesOf(units: number): readonly (readonly [number, number])[] {
	const ends = looks(units, firstLook, growth);
	return ends.map((end, i) => [ends[i - 1] ?? 0, end]);
}
