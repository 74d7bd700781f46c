import { choiceNames } from '../drive/drive.ts';
import { perChoice } from '../drive/per-choice.ts';
import { KeptReadings } from '../drive/sensing/kept-readings.ts';
import { simulatePair } from '../drive/simulate-pair.ts';
import type { StudyPlan } from '../study/plan.ts';
import { runShard, type ShardResult } from '../study/run-shard.ts';
import { requirementOf } from '../study/unit-passes.ts';
import { commutationRule } from './acceptances.ts';
import type { Cell } from './cell.ts';
import { judgeReadings } from './judge-readings.ts';

/** A study whose runs' readings are judged under every cell; plain data. */
export interface VotesPlan {
	readonly plan: StudyPlan;
	readonly cells: readonly Cell[];
}

/** Sums kept of each unit, cell, point and choice, over the unit's starts; the place is ((unit · cells + cell) · points + point) · choices + choice. */
export const cellColumns = ['early', 'late', 'missed', 'accepted', 'lateness', 'within'] as const;
export type CellColumns = Readonly<Record<(typeof cellColumns)[number], Float64Array<ArrayBuffer>>>;

export const emptyCellColumns = (length: number): CellColumns =>
	Object.fromEntries(cellColumns.map((name) => [name, new Float64Array(length)])) as CellColumns;

export interface VotesShard {
	/** The runs themselves, as a study has them; histograms left empty. */
	readonly shard: ShardResult;
	readonly cells: CellColumns;
}

/** Simulates units `from` up to `to` once and judges their readings under every cell. Lateness in electrical degrees. */
export function runVotes(
	{ plan, cells }: VotesPlan,
	from: number,
	to: number,
	onProgress: (done: number) => void = () => {},
): VotesShard {
	const points = plan.scenario.points.length;
	const choices = choiceNames.length;
	const columns = emptyCellColumns((to - from) * cells.length * points * choices);
	const loudest = Math.max(plan.scenario.values['noise.sigma'] as number, ...cells.map(({ sigma }) => sigma));
	const longest = Math.max(...cells.map(({ window }) => window));
	const keep = perChoice(() => new KeptReadings(loudest, longest));
	const { angleLimit } = requirementOf(plan.scenario);
	const shard = runShard(plan, from, to, {
		onProgress,
		simulate(drive, noise, unit, point) {
			for (const choice of choiceNames) keep[choice].clear();
			const pair = simulatePair(drive, noise, { chances: true, keep });
			const degreesPerSecond = 6 * drive.motor.polePairs * drive.operation.speed;
			const margin = drive.trial.falseMargin / degreesPerSecond;
			for (const [c, choice] of choiceNames.entries()) {
				for (const [place, { compensation, ...cell }] of cells.entries()) {
					const laterBy = compensation[choice] - drive.detection.compensation[choice];
					const rule = commutationRule(drive, compensation[choice], angleLimit);
					const sums = judgeReadings(keep[choice], { ...cell, laterBy, margin, rule });
					sums.lateness *= degreesPerSecond;
					const at = (((unit - from) * cells.length + place) * points + point) * choices + c;
					for (const name of cellColumns) columns[name][at] = (columns[name][at] as number) + sums[name];
				}
			}
			return pair;
		},
	});
	return { shard: { ...shard, histograms: new Uint32Array(0) }, cells: columns };
}
