import { clopperPearson, clopperPearsonUpper } from '../../shared/statistics/clopper-pearson.ts';
import { garwoodInterval } from '../../shared/statistics/garwood-interval.ts';
import { kolmogorovSmirnov } from '../../shared/statistics/kolmogorov-smirnov.ts';
import { mcnemar } from '../../shared/statistics/mcnemar.ts';
import { Moments } from '../../shared/statistics/moments.ts';
import { orderStatisticRanks } from '../../shared/statistics/order-statistic-interval.ts';
import { rankCorrelation } from '../../shared/statistics/rank-correlation.ts';
import { ratioEstimate } from '../../shared/statistics/ratio-estimate.ts';
import {
	pairedShareDifference,
	pairedShareDifferenceWald,
	shareDifference,
} from '../../shared/statistics/share-difference.ts';
import { type RowedSpread, spreadChange } from '../../shared/statistics/spread-change.ts';
import { successRunUnits } from '../../shared/statistics/success-run.ts';
import { toleranceLimitUnits } from '../../shared/statistics/tolerance-limit.ts';
import { wilsonInterval, wilsonLower } from '../../shared/statistics/wilson-interval.ts';
import { checksOf, limitChecks, type ModelCheck } from './model-check.ts';

const fourDigits = 5.1e-5;
const newcombeSingle = { kind: 'published', source: 'Newcombe 1998, Stat. Med. 17:857, Table I; recomputed' } as const;
const newcombePair = { kind: 'published', source: 'Newcombe 1998, Stat. Med. 17:873, Table II; recomputed' } as const;

const shares: ModelCheck[] = [
	...limitChecks({ kind: 'published', source: 'NIST e-Handbook 7.2.4.1; recomputed' }, 1e-6, [
		['Clopper–Pearson 90 %, 4 of 20', 0.07135388, 0.40102812, () => clopperPearson(4, 20, 0.9)],
	]),
	...checksOf({ kind: 'published', source: 'NIST e-Handbook 7.2.4.1; recomputed' }, [
		['Wilson one-sided 95 %, 26 of 200, lower', 0.0957701, 5e-6, () => wilsonLower(26, 200)],
	]),
	...limitChecks(newcombeSingle, fourDigits, [
		['Clopper–Pearson 95 %, 81 of 263', 0.2527, 0.3676, () => clopperPearson(81, 263)],
		['Clopper–Pearson 95 %, 15 of 148', 0.0578, 0.1617, () => clopperPearson(15, 148)],
		['Clopper–Pearson 95 %, 0 of 20', 0, 0.1684, () => clopperPearson(0, 20)],
		['Clopper–Pearson 95 %, 1 of 29', 0.0009, 0.1776, () => clopperPearson(1, 29)],
		['Wilson 95 %, 81 of 263', 0.2553, 0.3662, () => wilsonInterval(81, 263)],
		['Wilson 95 %, 15 of 148', 0.0624, 0.1605, () => wilsonInterval(15, 148)],
		['Wilson 95 %, 0 of 20', 0, 0.1611, () => wilsonInterval(0, 20)],
		['Wilson 95 %, 1 of 29', 0.0061, 0.1718, () => wilsonInterval(1, 29)],
	]),
	...checksOf(
		{ kind: 'closed form', source: '1 − 0.05^(1/n), behind the rule of three (Hanley 1983); recomputed' },
		(
			[
				[10, 0.258866],
				[30, 0.095034],
				[100, 0.029513],
				[1000, 0.00299125],
				[10_000, 2.995284e-4],
			] as const
		).map(([n, high]) => [`one-sided 95 % limit, 0 of ${n}`, high, 5e-6 * high, () => clopperPearsonUpper(0, n)]),
	),
];

const differences: ModelCheck[] = [
	...limitChecks(
		newcombePair,
		fourDigits,
		(
			[
				[56, 70, 48, 80, 0.0524, 0.3339],
				[9, 10, 3, 10, 0.1705, 0.809],
				[6, 7, 2, 7, 0.0582, 0.8062],
				[5, 56, 0, 29, -0.0381, 0.1926],
				[0, 10, 0, 20, -0.1611, 0.2775],
				[0, 10, 0, 10, -0.2775, 0.2775],
				[10, 10, 0, 20, 0.6791, 1],
				[10, 10, 0, 10, 0.6075, 1],
			] as const
		).map(([x1, n1, x2, n2, low, high]) => [
			`share difference, ${x1}/${n1} − ${x2}/${n2}`,
			low,
			high,
			() => shareDifference(x1, n1, x2, n2),
		]),
	),
	...limitChecks({ kind: 'published', source: 'Fagerland et al. 2014, from memory; recomputed' }, 5e-4, [
		[
			'paired share difference, 1/1/7/12',
			-0.507,
			-0.026,
			() => pairedShareDifference({ both: 1, onlyFirst: 1, onlySecond: 7, neither: 12 }),
		],
	]),
	...limitChecks(
		{ kind: 'closed form', source: 'normal interval; tables of Armitage and Berry 1994, Agresti 1990' },
		5e-7,
		(
			[
				[101, 121, 59, 33, 0.116606, 0.278299],
				[20, 12, 2, 16, 0.06421, 0.33579],
				[794, 150, 86, 570, 0.021284, 0.058716],
			] as const
		).map(([both, onlyFirst, onlySecond, neither, low, high]) => [
			`paired share difference, normal, ${both}/${onlyFirst}/${onlySecond}/${neither}`,
			low,
			high,
			() => pairedShareDifferenceWald({ both, onlyFirst, onlySecond, neither }),
		]),
	),
	...checksOf({ kind: 'published', source: 'Armitage and Berry 1994, p. 127; recomputed' }, [
		['McNemar exact p, 12 against 2', 0.0129395, 5e-8, () => mcnemar(12, 2).exact],
	]),
	...checksOf({ kind: 'independent computation', source: 'recomputed with another library' }, [
		['McNemar exact p, 121 against 59', 4.43445e-6, 5e-11, () => mcnemar(121, 59).exact],
		['McNemar mid-p, 121 against 59', 3.26665e-6, 5e-11, () => mcnemar(121, 59).midP],
	]),
];

/**
 * Equally likely values with the mean, variance and fourth moment of a standard normal figure; each with each, so that
 * pairs have the moments of a normal pair up to the fourth, on which the standard errors of deviations rest.
 */
const asNormal = [-Math.sqrt(3), 0, 0, 0, 0, Math.sqrt(3)];
const deviates = asNormal.flatMap((one) => asNormal.map((other) => [one, other] as const));
const repeats = 2500;

/** Half the width of the interval of a change of a deviation from 1 to 1.3. */
function deviationReach(rho: number, paired: boolean): number {
	const spread = (values: readonly number[]): RowedSpread => {
		const squares = Array.from({ length: repeats }, () => values.map((value) => value ** 2)).flat();
		return { sd: Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length), squares };
	};
	const before = spread(deviates.map(([one]) => one));
	const after = spread(deviates.map(([one, other]) => 1.3 * (rho * one + Math.sqrt(1 - rho ** 2) * other)));
	const { low, high } = spreadChange(before, after, { paired });
	return (high - low) / 2;
}

const spreads: ModelCheck[] = [
	...checksOf(
		{
			kind: 'closed form',
			source: '1.959964·√[(σ₁² + σ₂² − 2ρ²σ₁σ₂)/2n], from the covariances of a normal sample (Anderson 2003, ch. 3.4)',
		},
		([0, 0.8, 0.98] as const).map((rho) => {
			const drives = deviates.length * repeats;
			const expected = 1.959964 * Math.sqrt((1 + 1.3 ** 2 - 2 * rho ** 2 * 1.3) / (2 * drives));
			return [
				`change of a normal deviation, 90 000 drives correlated ${rho}, half width`,
				expected,
				2e-4 * expected,
				() => deviationReach(rho, true),
			] as const;
		}),
	),
	...checksOf({ kind: 'closed form', source: '1.959964·√[(σ₁² + σ₂²)/2n], the usual error of a normal deviation' }, [
		[
			'the same on other drives, half width',
			1.959964 * Math.sqrt((1 + 1.3 ** 2) / (2 * deviates.length * repeats)),
			2e-6,
			() => deviationReach(0.98, false),
		],
	]),
];

const rates: ModelCheck[] = [
	...limitChecks(
		{ kind: 'published', source: 'Garwood 1936, Biometrika 28, from memory; recomputed' },
		5e-6,
		(
			[
				[0, 0, 3.68888],
				[1, 0.025318, 5.571643],
				[2, 0.242209, 7.224688],
				[3, 0.618672, 8.767273],
				[5, 1.623486, 11.668332],
				[10, 4.795389, 18.390356],
				[20, 12.21652, 30.888378],
			] as const
		).map(([count, low, high]) => [`Poisson mean 95 %, count of ${count}`, low, high, () => garwoodInterval(count)]),
	),
	...checksOf({ kind: 'closed form', source: 'ratio of sums, Cochran 1977, ch. 6; recomputed' }, [
		['rate over units, worked example', 0.0853658537, 5e-11, () => worked().ratio],
		['its standard error', 0.0404227319, 5e-11, () => worked().standardError],
	]),
];

const worked = () => ratioEstimate([0, 1, 2, 0, 3, 1, 0, 0], [10, 12, 9, 11, 10, 8, 12, 10]);

const numbersOfUnits: ModelCheck[] = [
	...checksOf(
		{ kind: 'published', source: 'success run ln(1−C)/ln R: 22 and 59 quoted; all recomputed' },
		(
			[
				[0.9, [11, 22, 45, 230, 460, 2302]],
				[0.95, [14, 29, 59, 299, 598, 2995]],
				[0.99, [21, 44, 90, 459, 919, 4603]],
			] as const
		).flatMap(([confidence, units]) =>
			[0.8, 0.9, 0.95, 0.99, 0.995, 0.999].map(
				(share, i) =>
					[
						`units without a failure, share ${share}, confidence ${confidence}`,
						units[i] as number,
						0,
						() => successRunUnits(share, confidence),
					] as const,
			),
		),
	),
	...checksOf(
		{ kind: 'published', source: 'Wilks 1941; recomputed' },
		(
			[
				[0.95, 0.95, [1, 2, 3, 4, 5, 6, 8], [59, 93, 124, 153, 181, 208, 260]],
				[0.95, 0.99, [1, 2, 3], [90, 130, 165]],
				[0.99, 0.95, [1, 2, 3, 4], [299, 473, 628, 773]],
				[0.9, 0.95, [2], [46]],
			] as const
		).flatMap(([cover, confidence, beyond, units]) =>
			beyond.map(
				(ranks, i) =>
					[
						`units for a tolerance limit, cover ${cover}, confidence ${confidence}, ${ranks} beyond`,
						units[i] as number,
						0,
						() => toleranceLimitUnits(cover, confidence, ranks),
					] as const,
			),
		),
	),
	...checksOf(
		{ kind: 'closed form', source: 'binomial sums, ranks from memory; recomputed' },
		(
			[
				[0.5, 10, 2, 9, 0.9785],
				[0.5, 20, 6, 15, 0.95861],
				[0.5, 100, 40, 61, 0.9648],
				[0.99, 1000, 983, 997, 0.97609],
				[0.99, 10_000, 9880, 9920, 0.95575],
				[0.999, 10_000, 9983, 9997, 0.97546],
			] as const
		).flatMap(([p, n, low, high, confidence]) => [
			[`lower rank of the ${p} quantile of ${n}`, low, 0, () => orderStatisticRanks(n, p).low] as const,
			[`upper rank of the ${p} quantile of ${n}`, high, 0, () => orderStatisticRanks(n, p).high] as const,
			[`confidence of these ranks`, confidence, fourDigits, () => orderStatisticRanks(n, p).confidence] as const,
		]),
	),
];

/** NIST StRD NumAcc2–4: one value, then (below, above) 500 times. The generated pattern fits the certified values. */
const alternating = (base: number): number[] => [
	base + 0.2,
	...Array.from({ length: 1000 }, (_, i) => base + (i % 2 === 0 ? 0.1 : 0.3)),
];

function momentsOf(values: readonly number[]): Moments {
	const moments = new Moments();
	for (const value of values) moments.add(value);
	return moments;
}

/** Certified figures, and the relative error of s that the rounding of the input leaves. */
const moments: ModelCheck[] = checksOf(
	{ kind: 'published', source: 'NIST Statistical Reference Datasets, certified' },
	(
		[
			['NumAcc1', [10000001, 10000003, 10000002], 10000002, 1, 1e-15],
			['NumAcc2', alternating(1), 1.2, 0.1, 1e-11],
			['NumAcc3', alternating(1e6), 1000000.2, 0.1, 1e-9],
			['NumAcc4', alternating(1e7), 10000000.2, 0.1, 1e-8],
		] as const
	).flatMap(([name, values, mean, sd, relative]) => [
		[`${name}, mean`, mean, 1.3e-14 * mean, () => momentsOf(values).mean] as const,
		[`${name}, standard deviation`, sd, relative * sd, () => momentsOf(values).sd] as const,
	]),
);

const correlations: ModelCheck[] = checksOf(
	{ kind: 'published', source: 'worked examples of an encyclopaedia; recomputed' },
	[
		[
			'Spearman’s coefficient of ten pairs',
			-29 / 165,
			1e-14,
			() => rankCorrelation([106, 86, 100, 101, 99, 103, 97, 113, 112, 110], [7, 0, 27, 50, 28, 29, 20, 12, 6, 17]),
		],
		['the same with a tie', 0.9486833, 5e-8, () => rankCorrelation([1, 2, 2, 3], [1, 3, 2, 4])],
	],
);

/** Ten values and ten, of which k of the first come before all others and the rest alternate: D = k/10. */
const tenAndTen = (k: number): number => {
	const first = Array.from({ length: 10 }, (_, i) => (i < k ? i : 2 * i + 100));
	const second = Array.from({ length: 10 }, (_, i) => 2 * (i + k) + 99);
	return kolmogorovSmirnov(first, second).p;
};

const distributions: ModelCheck[] = checksOf(
	{ kind: 'closed form', source: '2 C(2n, n − k)/C(2n, n), Gnedenko and Korolyuk 1951; recomputed' },
	[
		['Kolmogorov–Smirnov, 10 and 10 values, p of D = 7/10', 2280 / 184756, 1e-14, () => tenAndTen(7)],
		['the same, D = 6/10', 9690 / 184756, 1e-14, () => tenAndTen(6)],
	],
);

export const intervalChecks: readonly ModelCheck[] = [
	...shares,
	...differences,
	...spreads,
	...rates,
	...numbersOfUnits,
	...moments,
	...correlations,
	...distributions,
];
