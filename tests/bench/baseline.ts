import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import type { BenchParts } from './bench-result.ts';
import type { Machine } from './machine.ts';

/** Figures of an earlier run that mean the same on another machine, by name: ratios, counts a period, bytes. */
export interface Baseline {
	readonly machine: Machine;
	readonly figures: Readonly<Record<string, number>>;
}

/** A figure that is not what it was. */
export interface Changed {
	readonly name: string;
	readonly before: number;
	readonly now: number;
}

/** Share of a figure from which on a change is shown. */
export const shownChange = 0.1;

/** What of a run's figures can be held against another machine's. */
export function comparable({ engine, growth, start, page }: BenchParts): Record<string, number> {
	const figures: Record<string, number> = {};
	if (engine) {
		figures['two workers over one'] = engine.twoOverOne.median;
		figures['odex over engine'] = engine.overOdex.median;
		for (const { name, overFirst, counts } of engine.scenarios) {
			figures[`rate of ${name} over the first demo's`] = overFirst.median;
			for (const [what, count] of Object.entries(counts)) figures[`${what} a period, ${name}`] = count;
		}
		for (const { setting, overPlain } of engine.costs) figures[`cost of a period, ${setting}`] = overPlain.median;
		for (const { question, share } of engine.utilisations) figures[`utilisation, ${question}`] = share;
	}
	if (growth) {
		const [first] = growth;
		for (const { units, unitProcessor, memory } of growth) {
			figures[`time of a further unit of ${units} over that of ${first?.units}`] =
				unitProcessor / (first?.unitProcessor as number);
			figures[`megabytes for ${units} units`] = memory / 1e6;
		}
	}
	if (start) {
		figures['study of 1000 over starting Node'] = start.studyOverNode.median;
		figures['npm start over starting Node'] = start.startOverNode.median;
	}
	if (page) figures['initial script of the page, kB gzipped'] = page.initialScript;
	return figures;
}

/** Null where none is kept. */
export const readBaseline = (file: string): Baseline | null =>
	existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as Baseline) : null;

/** Keeps a run's figures; of a run that left parts out, theirs stay as they were kept before. */
export function keepBaseline(file: string, { machine, figures }: Baseline, isWhole: boolean): void {
	const kept: Record<string, number> = isWhole ? {} : { ...readBaseline(file)?.figures };
	for (const [name, figure] of Object.entries(figures)) kept[name] = Number(figure.toPrecision(4));
	const baseline: Baseline = { machine, figures: kept };
	writeFileSync(file, `${JSON.stringify(baseline, null, '\t')}\n`);
}

/** Figures of both that differ by more than a tenth of what they were. */
export const changes = ({ figures }: Baseline, now: Readonly<Record<string, number>>): readonly Changed[] =>
	Object.entries(now).flatMap(([name, figure]) => {
		const before = figures[name];
		return before === undefined || Math.abs(figure - before) <= shownChange * Math.abs(before)
			? []
			: [{ name, before, now: figure }];
	});
