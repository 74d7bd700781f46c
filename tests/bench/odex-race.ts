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

/** The engine's part is repeated for at least so long, s. */
const engineTime = 0.2;

/** Races over a unit's first start at every operating point, both choices, without noise (odex has none). */
export function race(plan: StudyPlan, unit: number): Race {
	const drives = [...unitDrives(plan, unit)].filter(({ start }) => start === 0).map(({ drive }) => quiet(drive));
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

	let rounds = 0;
	let engineSeconds = 0;
	const started = process.cpuUsage();
	do {
		for (const drive of drives) simulatePair(drive, silence);
		rounds++;
		engineSeconds = processorTime(started);
	} while (engineSeconds < engineTime);
	return {
		engine: engineSeconds / (rounds * enginePeriods),
		odex: odexSeconds / odexPeriods,
		sectors,
		differing,
	};
}

/** Seconds of processor time since `from`; idle workers add nothing to it. */
function processorTime(from: NodeJS.CpuUsage): number {
	const { user, system } = process.cpuUsage(from);
	return (user + system) / 1e6;
}

const quiet = (drive: Drive): Drive => ({ ...drive, noise: { ...drive.noise, sigma: 0, ringAmplitude: 0 } });
