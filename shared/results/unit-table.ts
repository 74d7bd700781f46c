import { choiceNames } from '../drive/drive.ts';
import { type CountName, cellOf, countColumns, type MeasureName, measureColumns } from '../study/columns.ts';
import { unitStates } from '../study/merge.ts';
import type { UnitRecord } from '../study/point-change.ts';
import { type UnitFigureName, unitFigures } from '../study/unit-figures.ts';
import { type Shortcoming, unitJudge } from '../study/unit-passes.ts';
import type { CsvRow } from '../words/csv.ts';

interface UnitColumn {
	readonly name: string;
	readonly unit: string;
	readonly meaning: string;
}

/** What a row is of. */
const rowColumns: readonly UnitColumn[] = [
	{ name: 'unit', unit: '1', meaning: 'index of the drive, from 0; with the seed it gives the same drive again' },
	{ name: 'state', unit: '', meaning: 'finished, or failed where it could not be simulated (no figures follow)' },
	{ name: 'point', unit: '', meaning: 'name of the operating point' },
];

const shortcomingWords: Readonly<Record<Shortcoming, string>> = {
	lock: 'a run lost lock',
	torque: 'the torque was not reached',
	angle: 'too many commutations beyond the angle limit',
	rate: 'too many crossings an hour',
};

const shortcomingList = Object.entries(shortcomingWords)
	.map(([name, words]) => `${name} (${words})`)
	.join(', ');

/** Figures made of the columns; the first of them, `error95`, is a column itself. */
const madeNames = ['mean', 'rms', 'worstSector', 'spread', 'risingFalling'] as const satisfies UnitFigureName[];

/** What is told of each choice, by its name within it. */
const choiceColumns: readonly UnitColumn[] = [
	{ name: 'passes', unit: '1', meaning: '1 where the drive passes the point, 0 where it does not' },
	{ name: 'shortcoming', unit: '', meaning: `why it does not pass, the first that applies: ${shortcomingList}` },
	...Object.entries({ ...countColumns, ...measureColumns }).map(([name, column]) => ({ name, ...column })),
	...madeNames.map((name) => ({ name, unit: '°', meaning: `${unitFigures[name].words} of the drive's commutations` })),
];

/** Every column of the table of units; those of a choice stand once for each, as `halfBus.early` and `virtualNeutral.early`. */
export const unitColumns: { readonly row: readonly UnitColumn[]; readonly choice: readonly UnitColumn[] } = {
	row: rowColumns,
	choice: choiceColumns,
};

/** Units whose rows are made at once. */
const block = 500;

/**
 * A row for each unit and operating point, units rising, in pieces that fit
 * any memory; the first row of all is the header. Units that were not begun have none.
 */
export function* unitTable({ plan, study }: UnitRecord): Generator<readonly CsvRow[]> {
	const { points } = plan.scenario;
	const judge = unitJudge(plan.scenario);
	const stored = Object.keys({ ...countColumns, ...measureColumns }) as (CountName | MeasureName)[];
	const made = madeNames.map((name) => unitFigures[name].of(study.columns));
	const cells = (unit: number, point: number, choice: number): CsvRow => {
		const cell = cellOf(points.length, unit, point, choice);
		const shortcoming = judge.shortcoming(study.columns, unit, point, choice);
		return [
			shortcoming === null ? 1 : 0,
			shortcoming ?? '',
			...stored.map((name) => study.columns[name][cell] as number),
			...made.map((of) => of(cell)),
		];
	};
	const none = choiceNames.flatMap(() => choiceColumns.map(() => ''));
	const rowsOf = (unit: number): CsvRow[] =>
		points.map(({ name }, point) =>
			study.states[unit] === unitStates.finished
				? [unit, 'finished', name, ...choiceNames.flatMap((_, choice) => cells(unit, point, choice))]
				: [unit, 'failed', name, ...none],
		);
	yield [
		[
			...rowColumns.map(({ name }) => name),
			...choiceNames.flatMap((choice) => choiceColumns.map(({ name }) => `${choice}.${name}`)),
		],
	];
	for (let from = 0; from < study.units; from += block) {
		const rows: CsvRow[] = [];
		for (let unit = from; unit < Math.min(from + block, study.units); unit += 1) {
			if (study.states[unit] !== unitStates.pending) rows.push(...rowsOf(unit));
		}
		yield rows;
	}
}
