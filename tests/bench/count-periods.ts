import { choiceNames, type Drive, type RunRecord } from '../../shared/drive/drive.ts';
import { simulateChoice } from '../../shared/drive/simulate-pair.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import type { ShardResult } from '../../shared/study/run-shard.ts';
import { unitDrives } from '../../shared/study/unit-drives.ts';

/** PWM periods that an ideal sector of a drive lasts. */
function periodsPerSector({ motor, operation, inverter }: Drive): number {
	// 60° of the 6·p·n degrees that the angle turns by in a second
	return (inverter.pwmFrequency * 10) / (motor.polePairs * operation.speed);
}

/** PWM periods that a run went through, warm-up included: its speed is imposed, so its last angle tells its length. */
export function runPeriods(drive: Drive, run: RunRecord): number {
	const lateness = ((run.errors[run.measured - 1] ?? 0) - drive.detection.advance) / 60;
	return (run.duties.length + lateness) * periodsPerSector(drive);
}

/**
 * PWM periods that a shard's units went through with both choices, warm-up
 * included; to a fraction of a sector in each run, since its last commutation's
 * error is left out. Where a run lost lock, the columns do not tell how far it
 * came: the cell's runs are simulated again.
 */
export function shardPeriods(plan: StudyPlan, { from, to, columns }: ShardResult): number {
	const { values, points } = plan.scenario;
	const unmeasured = (values['trial.warmup'] as number) + (values['trial.settle'] as number);
	let periods = 0;
	for (let unit = from; unit < to; unit++) {
		const lengths = points.map(() => 0);
		const starts = points.map(() => 0);
		const firstCell = (unit - from) * points.length * choiceNames.length;
		for (const { point, drive, noise } of unitDrives(plan, unit)) {
			lengths[point] = (lengths[point] as number) + periodsPerSector(drive);
			starts[point] = (starts[point] as number) + 1;
			for (const [choice, name] of choiceNames.entries()) {
				const isLost = (columns.lost[firstCell + point * choiceNames.length + choice] as number) > 0;
				if (isLost) periods += runPeriods(drive, simulateChoice(drive, noise, name));
			}
		}
		for (let point = 0; point < points.length; point++) {
			const length = (lengths[point] as number) / (starts[point] as number);
			for (let choice = 0; choice < choiceNames.length; choice++) {
				const cell = firstCell + point * choiceNames.length + choice;
				if ((columns.lost[cell] as number) > 0) continue;
				periods += ((columns.runs[cell] as number) * unmeasured + (columns.sectors[cell] as number)) * length;
			}
		}
	}
	return periods;
}
