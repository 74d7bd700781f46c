import { choiceNames } from '../drive/drive.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { cellOf } from '../study/columns.ts';
import { finishedUnits, type StudyColumns } from '../study/merge.ts';
import { sectorsPerHour } from '../study/sectors-per-hour.ts';
import { requirementOf, unitJudge } from '../study/unit-passes.ts';
import { hourlyMean } from '../variants/variant-figures.ts';
import { eventKinds } from '../words/names.ts';
import type { Cell } from './cell.ts';
import type { CellColumns } from './run-votes.ts';
import type { CellFigures } from './votes-result.ts';

interface Plane {
	readonly scenario: Scenario;
	/** The runs that the readings are of. */
	readonly study: StudyColumns;
	readonly cells: readonly Cell[];
	readonly columns: CellColumns;
}

/** One choice's figures of every cell, in their order. @param choice index into choiceNames */
export function cellFigures({ scenario, study, cells, columns }: Plane, choice: number): readonly CellFigures[] {
	const finished = [...finishedUnits(study)];
	const { points } = scenario;
	const judge = unitJudge(scenario);
	const hours = points.map((point) => sectorsPerHour(scenario, point));
	const { crossingsPerHour: limit, quantile } = requirementOf(scenario);
	const sectorsOf = (unit: number, point: number): number =>
		study.columns.sectors[cellOf(points.length, unit, point, choice)] as number;
	/** Whether a unit as it ran keeps lock and reaches the torque. */
	const holdsOut = finished.map((unit) =>
		points.every((_, point) => {
			const shortcoming = judge.shortcoming(study.columns, unit, point, choice);
			return shortcoming !== 'lock' && shortcoming !== 'torque';
		}),
	);
	const name = choiceNames[choice] as 'halfBus';
	return cells.map(({ votes, window, sigma, compensation }, place) => {
		const at = (unit: number, point: number): number =>
			cellOf(points.length, unit * cells.length + place, point, choice);
		const sum = (column: keyof CellColumns, point: number): number =>
			finished.reduce((total, unit) => total + (columns[column][at(unit, point)] as number), 0);
		const perHour = (column: keyof CellColumns): number =>
			hourlyMean(
				scenario,
				points.map((_, point) => {
					const sectors = finished.reduce((total, unit) => total + sectorsOf(unit, point), 0);
					return (sum(column, point) / sectors) * (hours[point] as number);
				}),
			) ?? Number.NaN;
		const withinRate = finished.map((unit) =>
			points.every((_, point) => {
				const chance = eventKinds.reduce((total, kind) => total + (columns[kind][at(unit, point)] as number), 0);
				return chance <= (limit / (hours[point] as number)) * sectorsOf(unit, point);
			}),
		);
		const withinAngle = finished.map((unit) =>
			points.every((_, point) => {
				// a share of 1 is missed by rounding alone
				const share = (columns.within[at(unit, point)] as number) / sectorsOf(unit, point);
				return share >= quantile - 1e-12;
			}),
		);
		const [early, late, missed] = eventKinds.map(perHour) as [number, number, number];
		return {
			votes,
			window,
			sigma,
			compensation: compensation[name],
			crossingsPerHour: { early, late, missed, all: early + late + missed },
			withinRate: withinRate.filter(Boolean).length,
			withinAngle: withinAngle.filter(Boolean).length,
			passing: holdsOut.filter((holds, i) => holds && withinRate[i] && withinAngle[i]).length,
			acceptsAfter: hours.map((sectors, point) => {
				const degreesPerSecond = (60 * sectors) / 3600;
				return sum('lateness', point) / sum('accepted', point) + compensation[name] * degreesPerSecond;
			}),
		};
	});
}
