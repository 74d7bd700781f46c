import type { PerChoice } from '../drive/drive.ts';
import type { Change } from '../statistics/quantile-change.ts';
import type { ChoiceChange, PointChange } from '../study/point-change.ts';
import { count, degrees, leastFigure, percent, perHour, signedDegrees, span } from './figures.ts';

/** How a kind of figure is set in print: the figure itself, and a change of it with its sign. */
export interface Print {
	readonly figure: (value: number) => string;
	readonly step: (value: number) => string;
	/** Figures below it print alike, so that a change from one to another cannot be told. */
	readonly least?: number;
	/** The finest reach that is told: one below it, which would print as none at all, is told as it. */
	readonly finest?: number;
}

/** A change in words: "8.10°", "6.90°", "−1.20° ± 0.30°", and its limits in full. */
export interface ChangeWords {
	readonly before: string;
	readonly after: string;
	/** The change alone, for where its interval stands beside it. */
	readonly change: string;
	/** The change and the larger reach of its interval. */
	readonly step: string;
	readonly interval: string;
	/** True where the interval leaves out "no change". */
	readonly isShown: boolean;
}

const signed =
	(print: (size: number) => string) =>
	(value: number): string =>
		`${value < 0 ? '−' : value > 0 ? '+' : ''}${print(Math.abs(value))}`;

export const inDegrees: Print = {
	figure: (value) => (Number.isFinite(value) ? degrees(value) : 'lock lost'),
	step: signedDegrees,
};
export const inShares: Print = {
	figure: percent,
	// none at all is as exact as its reach
	step: signed((size) => (size === 0 ? '0.0\u00a0points' : percent(size).replace('%', 'points'))),
};
const inRates: Print = {
	figure: perHour,
	// "−< 10⁻¹⁸" would be any number
	step: (value) => (Math.abs(value) < leastFigure ? perHour(Math.abs(value)) : signed(perHour)(value)),
	least: leastFigure,
};

/** The headline figures that a change is told of. */
export const headlines: readonly {
	readonly name: Exclude<keyof ChoiceChange, 'crossingsBy'>;
	readonly label: string;
	readonly note: string;
	readonly print: Print;
}[] = [
	{ name: 'typical', label: 'Median drive', note: '95\u00a0% of its commutations keep within', print: inDegrees },
	{ name: 'oneInTwenty', label: '1 drive in 20 exceeds', note: 'the same angle', print: inDegrees },
	{ name: 'crossings', label: 'False and missed crossings', note: 'an hour', print: inRates },
	{
		name: 'passing',
		label: 'Drives that pass',
		note: "this point's requirement; steps in percentage points",
		print: inShares,
	},
];

/** @returns null where the figure has no change to state, as a rate of which one side saw no event or has none computed */
export function wordsOf(change: Change | null, print: Print): ChangeWords | null {
	if (!change) return null;
	const { before, after, low, high } = change;
	const figures = { before: print.figure(before), after: print.figure(after) };
	const { least = Number.NEGATIVE_INFINITY, finest = 0 } = print;
	if (before < least && after < least)
		return { ...figures, change: '', step: '', interval: 'too small to tell apart', isShown: false };
	const hasStep = Number.isFinite(change.change);
	const step = hasStep ? print.step(change.change) : '';
	const reach = Math.max(change.change - low, high - change.change, finest);
	const isBounded = Number.isFinite(low) && Number.isFinite(high);
	return {
		...figures,
		change: step,
		step: hasStep && isBounded ? `${step.replace(/\u00a0points$/, '')} ±\u00a0${unsigned(print.step(reach))}` : step,
		interval: isBounded ? span(print.step(low), print.step(high)) : 'too few drives for limits',
		isShown: isBounded && (low > 0 || high < 0),
	};
}

const unsigned = (words: string): string => words.replace(/^[+−]/, '');

export interface HeadlineChange {
	readonly label: string;
	readonly note: string;
	readonly choices: PerChoice<ChangeWords | null>;
	/** Why a choice has no change to state. */
	readonly missing: PerChoice<string>;
}

/** The changes of the headline figures at a point, choice by choice. */
export function headlineChanges(change: PointChange): readonly HeadlineChange[] {
	const { halfBus, virtualNeutral } = change.choices;
	const missing = ({ crossingsBy }: ChoiceChange): string => {
		if (crossingsBy === null) return 'not to be told from figures alone';
		if (crossingsBy === 'counted') return 'none seen on one side, or on both';
		return change.units < 2 ? 'too few drives to tell' : 'too small to be computed on one side, or on both';
	};
	const isAlike = halfBus.crossingsBy === virtualNeutral.crossingsBy;
	return headlines.map(({ name, label, note, print }) => ({
		label,
		note: name === 'crossings' && isAlike && halfBus.crossingsBy ? `${note}, ${halfBus.crossingsBy}` : note,
		choices: {
			halfBus: wordsOf(halfBus[name], print),
			virtualNeutral: wordsOf(virtualNeutral[name], print),
		},
		missing: { halfBus: missing(halfBus), virtualNeutral: missing(virtualNeutral) },
	}));
}

export const degreesChange = (change: Change | null): ChangeWords | null => wordsOf(change, inDegrees);

/** Whose change it is: "the same 20 drives", "20 drives each, not the same", "20 and 30 drives, not the same". */
export function changedDrives({ paired, units, unitsAfter }: PointChange): string {
	if (paired) return `the same ${count(units)} drives`;
	const many = units === unitsAfter ? `${count(units)} drives each` : `${count(units)} and ${count(unitsAfter)} drives`;
	return `${many}, not the same`;
}
