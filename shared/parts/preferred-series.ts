import pow from '@stdlib/math-base-special-pow';

/** The series of IEC 60063 by their number of values in a decade. */
export const seriesNames = ['E6', 'E12', 'E24', 'E48', 'E96', 'E192'] as const;
export type Series = (typeof seriesNames)[number];

/**
 * The values of one decade, 1 ≤ value < 10. IEC 60063:2015: 10^(i/n), rounded
 * to one decimal up to E24 and to two from E48 on, but for nine values that
 * history has settled otherwise. E6 and E12 are every fourth and second value
 * of E24, E48 and E96 of E192; E24 is not a subset of E192.
 */
export function preferredValues(series: Series): readonly number[] {
	return decades[series];
}

/** Whether a part of this value is made in the series. */
export function isPreferred(value: number, series: Series): boolean {
	return value > 0 && Number.isFinite(value) && decades[series].includes(significand(value));
}

/** The purchasable value whose ratio to `value` is nearest to one. `value` must be positive and finite. */
export function nearestPreferred(value: number, series: Series): number {
	if (!(value > 0) || !Number.isFinite(value)) throw new RangeError(`no preferred value near ${value}`);
	const exponent = Number(value.toExponential().split('e')[1]);
	let best = 0;
	for (const decade of [exponent - 1, exponent, exponent + 1]) {
		for (const digits of decades[series]) {
			const candidate = Number(`${digits}e${decade}`);
			if (best === 0 || ratio(candidate, value) < ratio(best, value)) best = candidate;
		}
	}
	return best;
}

const ratio = (a: number, b: number): number => Math.max(a / b, b / a);

/** Leading digits, 1 ≤ s < 10; nine decimals forgive the last bit of a computed value. */
const significand = (value: number): number => {
	const digits = Number(value.toExponential(9).split('e')[0]);
	return digits === 10 ? 1 : digits;
};

/** Values that differ from the rounded power, by their index. */
const e24Exceptions: ReadonlyMap<number, number> = new Map([
	[10, 27],
	[11, 30],
	[12, 33],
	[13, 36],
	[14, 39],
	[15, 43],
	[16, 47],
	[22, 82],
]);
const e192Exceptions: ReadonlyMap<number, number> = new Map([[185, 920]]);

const decade = (count: number, scale: number, exceptions: ReadonlyMap<number, number>): readonly number[] =>
	Array.from({ length: count }, (_, i) => (exceptions.get(i) ?? Math.round(scale * pow(10, i / count))) / scale);

const every = (step: number, values: readonly number[]): readonly number[] => values.filter((_, i) => i % step === 0);

const e24 = decade(24, 10, e24Exceptions);
const e192 = decade(192, 100, e192Exceptions);

const decades: Readonly<Record<Series, readonly number[]>> = {
	E6: every(4, e24),
	E12: every(2, e24),
	E24: e24,
	E48: every(4, e192),
	E96: every(2, e192),
	E192: e192,
};
