import { choiceNames, type Drive, type PerChoice } from '../../shared/drive/drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import { unitDrives } from '../../shared/study/unit-drives.ts';
import { benchTolerance } from '../reference/bench-tolerance.ts';
import { type OdexRecord, odexRun } from '../reference/odex-run.ts';
import { targets } from './bench-result.ts';
import { runPeriods } from './count-periods.ts';

/** One repetition: the same drives by both, in this one thread, right after one another. */
export interface Race {
	/** Processor time of a PWM period, s: unlike time on the clock, hardly changed by what else the machine does. */
	readonly engine: number;
	readonly odex: number;
	/**
	 * Sectors, and those whose angle errors differ by more than is allowed of
	 * odex. Boards are drawn here, not chosen, so that in some sector a reading
	 * stands so near the threshold that odex's tolerance decides it; its angle is
	 * then a PWM period off.
	 */
	readonly sectors: number;
	readonly differing: number;
}

/** The engine's part is repeated for at least so long, s of processor time. */
const engineTime = 0.5;

/** Warms both up: in this thread the engine has not run so far, and for its first second and more it is compiled while it runs. */
export function warmRace(plan: StudyPlan, seconds: number): void {
	race(plan, 0);
	runEngine(raceDrives(plan, 0), seconds);
}

/** Races over a unit's first start at every operating point, both choices, without noise (odex has none). */
export function race(plan: StudyPlan, unit: number): Race {
	const drives = raceDrives(plan, unit);
	const began = process.cpuUsage();
	const theirs = drives.map(
		(drive): PerChoice<OdexRecord> => ({
			halfBus: odexRun(drive, 'halfBus', benchTolerance),
			virtualNeutral: odexRun(drive, 'virtualNeutral', benchTolerance),
		}),
	);
	const odexSeconds = processorTime(began);

	let odexPeriods = 0;
	let enginePeriods = 0;
	let sectors = 0;
	let differing = 0;
	for (const [i, drive] of drives.entries()) {
		const mine = simulatePair(drive, silence);
		for (const choice of choiceNames) {
			const other = theirs[i]?.[choice];
			if (other === undefined) continue;
			odexPeriods += other.time * drive.inverter.pwmFrequency;
			enginePeriods += runPeriods(drive, mine[choice]);
			for (const [n, error] of mine[choice].errors.entries()) {
				sectors++;
				if (!(Math.abs(error - (other.errors[n] ?? Number.NaN)) <= targets.odexDeviation)) differing++;
			}
		}
	}

	const { seconds, rounds } = runEngine(drives, engineTime);
	return {
		engine: seconds / (rounds * enginePeriods),
		odex: odexSeconds / odexPeriods,
		sectors,
		differing,
	};
}

const raceDrives = (plan: StudyPlan, unit: number): Drive[] =>
	[...unitDrives(plan, unit)].filter(({ start }) => start === 0).map(({ drive }) => quiet(drive));

/** Runs the drives over and over for at least `atLeast` seconds of processor time. */
function runEngine(drives: readonly Drive[], atLeast: number): { seconds: number; rounds: number } {
	const started = process.cpuUsage();
	let rounds = 0;
	let seconds = 0;
	do {
		for (const drive of drives) simulatePair(drive, silence);
		rounds++;
		seconds = processorTime(started);
	} while (seconds < atLeast);
	return { seconds, rounds };
}

/** Seconds of processor time since `from`; idle workers add nothing to it. */
function processorTime(from: NodeJS.CpuUsage): number {
	const { user, system } = process.cpuUsage(from);
	return (user + system) / 1e6;
}

const quiet = (drive: Drive): Drive => ({ ...drive, noise: { ...drive.noise, sigma: 0, ringAmplitude: 0 } });
