import type { Deviations } from '../../shared/drive/build-drive.ts';
import {
	type ChoiceName,
	choiceNames,
	type Drive,
	type PairRecord,
	type PerChoice,
	type RunRecord,
} from '../../shared/drive/drive.ts';
import type { NoiseSource } from '../../shared/drive/noise.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { keyedNoise } from '../../shared/sampling/keyed-noise.ts';
import type { Values } from '../../shared/scenario/scenario.ts';
import { driveWith } from './drives.ts';

/** A drive and its past, whose last sector is run again and again with fresh noise. */
export interface RerunCase {
	readonly name: string;
	readonly parameters: Values;
	/** Of the parts; phase a is open in the sector looked at, its EMF falling. */
	readonly deviations?: Deviations;
	/** The past of the sector looked at: which noise led up to it. */
	readonly past: string;
}

export const events = ['early', 'late', 'missed'] as const;
export type Event = (typeof events)[number];
/** A count or a chance of each event; what is left was accepted within the margin. */
export type PerEvent = Record<Event, number>;

/** Six warm-up sectors and two settling ones make the past; the one measured sector is looked at. */
const shortRun = { 'trial.warmup': 6, 'trial.settle': 2, 'trial.measured': 1 };
const target = 8;

const twoThousand = { 'operation.speed': 2000, 'operation.torque': 0.044 };

export const rerunCases: readonly RerunCase[] = [
	{
		name: 'comparator, W 3 K 2, 180 mV of noise',
		parameters: { ...twoThousand, 'noise.sigma': 0.18 },
		past: 'one',
	},
	{
		name: 'comparator, W 1 K 1, 140 mV of noise, 100 mV of hysteresis',
		parameters: {
			...twoThousand,
			'noise.sigma': 0.14,
			'sensing.comparator.hysteresis': 0.1,
			'detection.majorityWindow': 1,
			'detection.majorityVotes': 1,
		},
		past: 'two',
	},
	{
		name: 'converter of 7 bits, W 5 K 3, 200 mV of hysteresis, 4 readings a period',
		parameters: {
			'noise.sigma': 0.3,
			'sensing.converter.bits': 7,
			'sensing.comparator.hysteresis': 0.2,
			'detection.majorityWindow': 5,
			'detection.majorityVotes': 3,
			'detection.samples': 4,
		},
		past: 'three',
	},
	{
		name: 'converter of 6 bits, W 3 K 3, 100 mV of hysteresis, an offset of 1.3 V: late and missed',
		parameters: {
			...twoThousand,
			'noise.sigma': 0.12,
			'sensing.converter.bits': 6,
			'sensing.comparator.hysteresis': 0.1,
			'detection.majorityWindow': 3,
			'detection.majorityVotes': 3,
			'detection.timeout': 1.1,
		},
		deviations: { 'sensing.comparator.offset': [1.3, 0, 0] },
		past: 'four',
	},
	{
		name: 'whole window of complementary chopping with ringing, W 6 K 4, 200 mV of hysteresis',
		parameters: {
			'inverter.chopping': 'complementary',
			'detection.window': 'whole',
			'detection.samples': 3,
			'detection.majorityWindow': 6,
			'detection.majorityVotes': 4,
			'noise.sigma': 0.35,
			'noise.ringAmplitude': 2,
			'noise.ringDecay': 5e-6,
			'sensing.comparator.hysteresis': 0.2,
		},
		past: 'five',
	},
	{
		name: 'off-window of low-side chopping, W 11 K 5, both hysteresis and 8 bits',
		parameters: {
			...twoThousand,
			'inverter.chopping': 'low-side',
			'detection.window': 'off',
			'detection.samples': 4,
			'detection.position': 0.5,
			'detection.majorityWindow': 11,
			'detection.majorityVotes': 5,
			'noise.sigma': 0.7,
			'sensing.converter.bits': 8,
			'sensing.comparator.hysteresis': 0.1,
		},
		past: 'six',
	},
];

const driveOf = ({ parameters, deviations }: RerunCase): Drive =>
	driveWith({ 'detection.compensation': 75e-6, ...parameters, ...shortRun }, deviations);

/**
 * Re-runs of the sector looked at: each with the case's own noise up to there
 * and noise drawn afresh in it.
 */
function reruns(one: RerunCase): (replicate: number, chances: boolean) => PairRecord {
	const drive = driveOf(one);
	const past = keyedNoise(one.past).forRun(0, 0, 0);
	const afresh = keyedNoise(`${one.past} afresh`);
	return (replicate, chances) => {
		const fresh = afresh.forRun(replicate, 0, 0);
		const noise: NoiseSource = {
			normal: (sector, reading) => (sector === target ? fresh : past).normal(sector, reading),
			ringSpread: (period, edge) => past.ringSpread(period, edge),
		};
		return simulatePair(drive, noise, { chances });
	};
}

/** How a run's only measured sector ended. */
function outcomeOf({ crossings }: RunRecord, falseMargin: number): Event | 'within' {
	const crossing = crossings[0] ?? Number.NaN;
	if (Number.isNaN(crossing)) return 'missed';
	return crossing < -falseMargin ? 'early' : crossing > falseMargin ? 'late' : 'within';
}

/** What became of the sector looked at in its first re-runs, each with the chances computed in that very run. */
export function watchReruns(one: RerunCase, replicates: number) {
	const run = reruns(one);
	const { falseMargin } = driveOf(one).trial;
	return Array.from({ length: replicates }, (_, replicate) => {
		const pair = run(replicate, true);
		return perChoice((choice) => {
			const { chances } = pair[choice];
			const computed = perEvent((event) => chances?.[event][0] ?? Number.NaN);
			return { outcome: outcomeOf(pair[choice], falseMargin), chances: computed };
		});
	});
}

/** Counts over the first `replicates` re-runs. */
export function countReruns(one: RerunCase, replicates: number): PerChoice<PerEvent> {
	const run = reruns(one);
	const { falseMargin } = driveOf(one).trial;
	const counts = perChoice(() => ({ early: 0, late: 0, missed: 0 }));
	for (let replicate = 0; replicate < replicates; replicate++) {
		const pair = run(replicate, false);
		for (const choice of choiceNames) {
			const outcome = outcomeOf(pair[choice], falseMargin);
			if (outcome !== 'within') counts[choice][outcome]++;
		}
	}
	return counts;
}

const perChoice = <T>(make: (choice: ChoiceName) => T): PerChoice<T> =>
	Object.fromEntries(choiceNames.map((choice) => [choice, make(choice)])) as PerChoice<T>;

const perEvent = (make: (event: Event) => number): PerEvent =>
	Object.fromEntries(events.map((event) => [event, make(event)])) as PerEvent;
