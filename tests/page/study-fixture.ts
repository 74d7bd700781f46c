import type { ChoiceName, PerChoice } from '../../shared/drive/drive.ts';
import type {
	ChoiceFigures,
	ChoiceVerdict,
	FigureSpread,
	PairedFigures,
	PassingPairs,
	PointResult,
	RateFigure,
	StudyResult,
} from '../../shared/study/result.ts';

/* An invented result in the shape the engine gives, for tests of what is made of it. Its figures mean nothing. */

const bell = (mean: number, sd: number, sectors: number): ChoiceFigures['histogram'] => {
	const start = -20;
	const step = 0.1;
	const counts = Array.from({ length: 400 }, (_, i) => {
		const z = (start + (i + 0.5) * step - mean) / sd;
		return Math.round((sectors * step * Math.exp(-z * z * 0.5)) / (sd * 2.5066));
	});
	return { start, step, counts };
};

export const seen = (count: number, sectors: number): RateFigure => ({
	count,
	rate: count / sectors,
	low: Math.max(0, (count - 2 * Math.sqrt(count)) / sectors),
	high: (count + 2 * Math.sqrt(count)) / sectors,
	perHour: (count / sectors) * 4_320_000,
	boundOn: 'sectors',
});

export const noneSeen: RateFigure = { count: 0, rate: 0, low: 0, high: 0.0037, perHour: 0, boundOn: 'units' };

const spread = (sd: number): FigureSpread => ({
	units: 1000,
	lost: 0,
	mean: 1.9 * sd,
	sd: 0.3 * sd,
	quantiles: [
		{ share: 0.05, value: 1.4 * sd, interval: [1.35 * sd, 1.45 * sd] },
		{ share: 0.5, value: 1.9 * sd, interval: [1.86 * sd, 1.94 * sd] },
		{ share: 0.95, value: 2.6 * sd, interval: [2.5 * sd, 2.75 * sd] },
	],
	symmetric: [1.3 * sd, 2.7 * sd],
	shortest: [1.25 * sd, 2.6 * sd],
});

const computed = {
	rate: 4e-4,
	perHour: 1728,
	interval: null,
	effective: 31,
	largestShare: 0.1,
	largestUnit: 77,
	gain: 9,
};

const unitFigures = (sd: number): ChoiceFigures['unitFigures'] => ({
	error95: spread(sd),
	mean: spread(sd),
	rms: spread(sd),
	worstSector: spread(sd),
	spread: spread(sd),
	risingFalling: spread(sd),
});

const passing: PassingPairs = {
	units: 1000,
	both: 950,
	only: { halfBus: 40, virtualNeutral: 5 },
	neither: 5,
	difference: 0.035,
	interval: [0.02, 0.05],
	p: 1e-8,
	better: 'halfBus',
};

const figure = { medianDifference: -0.62, interval: [-0.66, -0.58], p: 1e-12, better: 'halfBus' } as const;
const pairs: Pick<PairedFigures, 'figures' | 'passing' | 'rates'> = {
	figures: { error95: figure, mean: figure, rms: figure, worstSector: figure, spread: figure, risingFalling: figure },
	passing,
	rates: { counted: { ratio: 0.4, interval: [0.3, 0.5], withoutEvents: null, few: false }, computed: null },
};

const verdict = (decision: ChoiceVerdict['decision'], passed: number): ChoiceVerdict => ({
	decision,
	passed,
	failed: 1000 - passed,
	notSimulated: 0,
	share: passed / 1000,
	low: passed / 1000 - 0.01,
	high: passed / 1000 + 0.008,
	moreUnits: decision === 'undecided' ? 400 : 0,
	successRun: null,
	limits: 'Clopper–Pearson',
	sentence: `An invented verdict: ${decision}.`,
});

export const choiceFigures = (mean: number, sd: number, over: Partial<ChoiceFigures> = {}): ChoiceFigures => ({
	units: 1000,
	sectors: 96_000,
	angleError: {
		mean,
		sd,
		quantiles: {
			'0.005': mean - 2.58 * sd,
			'0.025': mean - 1.96 * sd,
			'0.5': mean,
			'0.975': mean + 1.96 * sd,
			'0.995': mean + 2.58 * sd,
		},
		maxAbs: Math.abs(mean) + 4.2 * sd,
	},
	unitError: {
		median: 1.9 * sd,
		q95: 2.6 * sd,
		medianInterval: [1.86 * sd, 1.94 * sd],
		q95Interval: [2.5 * sd, 2.75 * sd],
	},
	unitFigures: unitFigures(sd),
	passing: { passed: 960, shortcomings: { lock: 0, torque: 0, angle: 38, rate: 2 } },
	computed: { early: computed, late: computed, missed: computed, all: computed },
	rates: { early: seen(31, 96_000), late: seen(4, 96_000), missed: noneSeen },
	causes: { freewheel: 3, noise: 22, threshold: 6 },
	lost: 0,
	runs: 4000,
	meanTorque: 0.1002,
	torqueNotReached: 0,
	sectorMeans: [mean - 0.9, mean + 0.8, mean - 0.7, mean + 0.9, mean - 0.8, mean + 0.7],
	worst: [
		{ unit: 417, error: Number.POSITIVE_INFINITY, shortcoming: 'lock' },
		{ unit: 33, error: 3.1 * sd, shortcoming: 'angle' },
		{ unit: 2, error: 2.9 * sd, shortcoming: null },
	],
	histogram: bell(mean, sd, 96_000),
	...over,
});

export const pointResult = (
	name: string,
	speed: number,
	choices: PerChoice<ChoiceFigures>,
	better: ChoiceName | 'not shown',
): PointResult => ({
	name,
	conditions: { 'operation.speed': speed, 'operation.torque': 0.044, 'supply.voltage': 24 },
	choices,
	paired: {
		units: 1000,
		medianDifference: -0.62,
		interval: [-0.66, -0.58],
		smaller: { halfBus: 871, virtualNeutral: 127 },
		ties: 2,
		p: 1e-12,
		better,
		...pairs,
		sentence:
			better === 'not shown'
				? `At ${name} neither choice is shown to be better: the median difference is 0.02° (95 % interval −0.03° to 0.07°).`
				: `At ${name} half-bus sensing is better: its drives err 0.62° less (median of paired differences, 95 % interval 0.58° to 0.66°), and less in 871 of 1000 drives.`,
	},
});

export const studyResult = (over: Partial<StudyResult['provenance']> = {}): StudyResult => ({
	format: 'anglespread-study',
	formatVersion: 1,
	provenance: {
		version: '0.1.0',
		seed: 'demo',
		scenario: 'Invented fan, 24 V',
		scenarioDigest: '5f1c'.repeat(16),
		resultDigest: '9ab0'.repeat(16),
		units: { asked: 1000, finished: 1000, failed: 0 },
		partial: false,
		failures: [],
		compensation: { halfBus: 73.4e-6, virtualNeutral: 75.1e-6 },
		level: 0.95,
		methods: { rates: 'ratio estimator over drives', unitError: 'order statistics' },
		warnings: [],
		...over,
	},
	stopping: { rule: 'number' },
	requirement: {
		angleLimit: 5,
		quantile: 0.95,
		crossingsPerHour: 0.01,
		share: 0.95,
		confidence: 0.95,
		sentence: 'An invented requirement.',
	},
	verdict: { halfBus: verdict('holds', 990), virtualNeutral: verdict('undecided', 955) },
	comparison: { ...passing, sentence: 'An invented comparison.' },
	points: [
		pointResult(
			'slow',
			900,
			{
				halfBus: choiceFigures(0.3, 1.4, {
					rates: { early: seen(812, 96_000), late: seen(40, 96_000), missed: noneSeen },
				}),
				virtualNeutral: choiceFigures(-0.4, 2.3, {
					rates: { early: seen(2104, 96_000), late: seen(77, 96_000), missed: seen(3, 96_000) },
				}),
			},
			'halfBus',
		),
		pointResult(
			'middle',
			2000,
			{ halfBus: choiceFigures(0.1, 1.1), virtualNeutral: choiceFigures(0.2, 1.5) },
			'halfBus',
		),
		pointResult(
			'rated',
			3000,
			{ halfBus: choiceFigures(0, 1.05), virtualNeutral: choiceFigures(0.05, 1.1) },
			'not shown',
		),
	],
});
