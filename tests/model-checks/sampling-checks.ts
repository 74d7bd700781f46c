import { inverseNormal } from '../../shared/maths/inverse-normal.ts';
import { philox } from '../../shared/maths/philox.ts';
import { preferredValues } from '../../shared/parts/preferred-series.ts';
import { stream } from '../../shared/sampling/stream.ts';
import { uniform } from '../../shared/sampling/uniform.ts';
import { adaptiveMonteCarlo, numericalTolerance } from '../../shared/statistics/adaptive-monte-carlo.ts';
import { sensitivityIndices } from '../../shared/statistics/sensitivity-indices.ts';
import { design, ishigami, type Model } from '../statistics/pick-freeze-design.ts';
import { checksOf, type ModelCheck } from './model-check.ts';

const normals: ModelCheck[] = checksOf(
	{ kind: 'published', source: 'Wichura 1988, AS 241; recomputed in 50-digit arithmetic' },
	(
		[
			[0.25, -0.6744897501960817],
			[0.001, -3.0902323061678136],
			[1e-20, -9.262340089798407],
			[0.95, 1.6448536269514726],
			[0.975, 1.9599639845400543],
			[0.995, 2.575829303548901],
		] as const
	).map(([p, z]) => [`inverse normal of ${p}`, z, 1e-15 * Math.abs(z), () => inverseNormal(p)]),
);

type Words = readonly [number, number, number, number];
const philoxWords = (counter: Words, key: readonly [number, number]): Uint32Array => {
	const out = new Uint32Array(4);
	philox(out, ...counter, ...key);
	return out;
};

const words: ModelCheck[] = checksOf(
	{ kind: 'published', source: 'Salmon et al. 2011, known answers; recomputed' },
	(
		[
			['zeros', [0, 0, 0, 0], [0, 0], [0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8]],
			['ones', [-1, -1, -1, -1], [-1, -1], [0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd]],
			[
				'the digits of π',
				[0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344],
				[0xa4093822, 0x299f31d0],
				[0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1],
			],
		] as const
	).flatMap(([name, counter, key, expected]) =>
		expected.map(
			(word, i) => [`Philox4x32-10 of ${name}, word ${i}`, word, 0, () => philoxWords(counter, key)[i] ?? 0] as const,
		),
	),
);

const hundredfold = (series: 'E24' | 'E48' | 'E96' | 'E192'): number =>
	preferredValues(series).reduce((sum, value) => sum + Math.round(value * 100), 0);

const series: ModelCheck[] = checksOf(
	{ kind: 'published', source: 'IEC 60063:2015 by way of printed lists; recomputed' },
	[
		['E24, sum of its values in hundredths', 9010, 0, () => hundredfold('E24')],
		['E48, sum of its values in hundredths', 18_313, 0, () => hundredfold('E48')],
		['E96, sum of its values in hundredths', 37_070, 0, () => hundredfold('E96')],
		['E192, sum of its values in hundredths', 74_599, 0, () => hundredfold('E192')],
	],
);

/** Batches of a model of independent inputs, each from its uniform. */
export const batches =
	(model: (next: () => number) => number) =>
	(batch: number, size: number): Float64Array => {
		const source = stream('jcgm', 'batch', batch);
		const next = (): number => Math.max(source.double(), 2 ** -60);
		return Float64Array.from({ length: size }, () => model(next));
	};
export const normal = (next: () => number, sd = 1, mean = 0): number => mean + sd * inverseNormal(next());
const rectangular = (next: () => number, low: number, high: number): number =>
	(low + high) / 2 + uniform((high - low) / 2, next());

/** Runs once, however many of its figures are asked for. */
function once<T>(make: () => T): () => T {
	let made: T | undefined;
	return () => {
		made ??= make();
		return made;
	};
}

const fourNormals = once(() =>
	adaptiveMonteCarlo(batches((next) => normal(next) + normal(next) + normal(next) + normal(next))),
);
const fourRectangular = once(() => {
	const edge = Math.sqrt(3);
	const model = (next: () => number) => [0, 0, 0, 0].reduce((sum) => sum + rectangular(next, -edge, edge), 0);
	return adaptiveMonteCarlo(batches(model), { digits: 3 });
});
const oneLarger = once(() => {
	const edge = Math.sqrt(3) * 10;
	return adaptiveMonteCarlo(
		batches((next) => normal(next) + normal(next) + normal(next) + rectangular(next, -edge, edge)),
	);
});
/** Milligrams. */
const mass = once(() =>
	adaptiveMonteCarlo(
		batches((next) => {
			const reference = normal(next, 0.05, 100_000) + normal(next, 0.02, 1.234);
			const air = rectangular(next, 1.1, 1.3);
			const weight = rectangular(next, 7000, 9000);
			const standard = rectangular(next, 7950, 8050);
			return reference * (1 + (air - 1.2) * (1 / weight - 1 / standard)) - 100_000;
		}),
		{ digits: 1 },
	),
);
/** @param r correlation of the two inputs */
const loss = (x1: number, r: number) =>
	once(() =>
		adaptiveMonteCarlo(
			batches((next) => {
				const first = normal(next);
				const second = r * first + Math.sqrt(1 - r * r) * normal(next);
				return (x1 + 0.005 * first) ** 2 + (0.005 * second) ** 2;
			}),
			{ kind: 'shortest', maxBatches: 40 },
		),
	);

const uncertainty: ModelCheck[] = [
	...checksOf({ kind: 'published', source: 'JCGM 101:2008, 7.9.2, from memory; recomputed' }, [
		['numerical tolerance of 0.00035 at two digits', 5e-6, 0, () => numericalTolerance(0.00035, 2)],
		['numerical tolerance of 0.00035 at one digit', 5e-5, 0, () => numericalTolerance(0.00035, 1)],
		['numerical tolerance of 2 at one digit', 0.5, 0, () => numericalTolerance(2, 1)],
	]),
	...checksOf({ kind: 'published', source: 'JCGM 101:2008, 9.2; closed forms recomputed' }, [
		['four standard normals, u', 2, 0.05, () => fourNormals().sd],
		['four standard normals, lower 95 % limit', -3.919928, 0.05, () => fourNormals().low],
		['four standard normals, upper 95 % limit', 3.919928, 0.05, () => fourNormals().high],
		['four rectangular inputs, lower 95 % limit', -3.8794067, 0.005, () => fourRectangular().low],
		['four rectangular inputs, upper 95 % limit', 3.8794067, 0.005, () => fourRectangular().high],
		['one input ten times larger, u', 10.148892, 0.05, () => oneLarger().sd],
		['one input ten times larger, upper 95 % limit', 17.015814, 0.1, () => oneLarger().high],
	]),
	// published single run: 1.2341, 0.0754, [1.0834, 1.3825]; limits here from 40 runs of 10⁶ draws
	...checksOf({ kind: 'published', source: 'JCGM 101:2008, 9.3; recomputed', unit: 'mg' }, [
		['mass calibration, mean', 1.234, 0.005, () => mass().mean],
		['mass calibration, u', 0.0754797, 0.005, () => mass().sd],
		['mass calibration, lower 95 % limit', 1.0844, 0.005, () => mass().low],
		['mass calibration, upper 95 % limit', 1.3836, 0.005, () => mass().high],
	]),
	...(
		[
			[0, 0, 50e-6, 50e-6, 0, 149.8e-6, '9.4.2'],
			[0.01, 0, 150e-6, 111.8e-6, 0, 366e-6, '9.4.2'],
			[0.05, 0, 2550e-6, 502.5e-6, 1593.6e-6, 3548.6e-6, '9.4.2'],
			[0, 0.9, 50e-6, 67.3e-6, 0, 185e-6, '9.4.3'],
			[0.01, 0.9, 150e-6, 120.5e-6, 12e-6, 397e-6, '9.4.3'],
			[0.05, 0.9, 2550e-6, 504.5e-6, 1620e-6, 3550e-6, '9.4.3'],
		] as const
	).flatMap(([x1, r, mean, u, low, high, clause]) => {
		const run = loss(x1, r);
		const of = `comparison loss, x₁ = ${x1}, r = ${r}`;
		// standard errors: that of the mean below u/√draws, of the limits about ten times as large
		return checksOf({ kind: 'published', source: `JCGM 101:2008, ${clause}; recomputed with another library` }, [
			[`${of}, mean`, mean, 0.01 * u, () => run().mean],
			[`${of}, u`, u, 0.02 * u, () => run().sd],
			[`${of}, shortest 95 % interval, lower`, low, 0.1 * u, () => run().low],
			[`${of}, shortest 95 % interval, upper`, high, 0.1 * u, () => run().high],
		]);
	}),
];

const weights = [0, 1, 4.5, 9, 99, 99, 99, 99];
/** I. M. Sobol's g function. */
const g: Model = (u) =>
	u.reduce(
		(product, each, i) => (product * (Math.abs(4 * each - 2) + (weights[i] as number))) / (1 + (weights[i] as number)),
		1,
	);

const indexChecks = (
	name: string,
	source: string,
	{ model, inputs, tolerance }: { readonly model: Model; readonly inputs: number; readonly tolerance: number },
	rows: readonly (readonly [input: number, first: number, total: number])[],
): ModelCheck[] =>
	rows.flatMap(([input, first, total]) => {
		const indices = once(() => sensitivityIndices(design(model, inputs, [input], 100_000)));
		return checksOf({ kind: 'closed form', source }, [
			[`${name}, input ${input + 1}, first order`, first, tolerance, () => indices().first],
			[`${name}, input ${input + 1}, total`, total, tolerance, () => indices().total],
		]);
	});

const sensitivities: ModelCheck[] = [
	...indexChecks(
		'Ishigami function',
		'Ishigami and Homma 1990, integrals recomputed',
		{ model: ishigami, inputs: 3, tolerance: 0.02 },
		[
			[0, 0.313905191, 0.557588855],
			[1, 0.442411145, 0.442411145],
			[2, 0, 0.243683664],
		],
	),
	...indexChecks('g function', 'integrals recomputed', { model: g, inputs: 8, tolerance: 0.015 }, [
		[0, 0.716192, 0.787144],
		[1, 0.179048, 0.242198],
		[2, 0.0236758, 0.0343169],
		[3, 0.00716192, 0.0104604],
		[4, 7.1619e-5, 1.04949e-4],
	]),
];

export const samplingChecks: readonly ModelCheck[] = [
	...normals,
	...words,
	...series,
	...uncertainty,
	...sensitivities,
];
