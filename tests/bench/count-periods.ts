import type { Drive, RunRecord } from '../../shared/drive/drive.ts';
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
 * included. Too few rather than too many: a run that lost lock is counted
 * without its settling; and to a fraction of a sector in each run, since its
 * last commutation's error is left out.
 */
export function shardPeriods(plan: StudyPlan, { from, to, columns }: ShardResult): number {
	const { values, points } = plan.scenario;
	const warmup = values['trial.warmup'] as number;
	const unmeasured = warmup + (values['trial.settle'] as number);
	let periods = 0;
	for (let unit = from; unit < to; unit++) {
		const lengths = points.map(() => 0);
		let starts = 0;
		for (const { point, drive } of unitDrives(plan, unit)) {
			lengths[point] = (lengths[point] as number) + periodsPerSector(drive);
			starts += 1 / points.length;
		}
		for (let point = 0; point < points.length; point++) {
			for (let choice = 0; choice < 2; choice++) {
				const cell = ((unit - from) * points.length + point) * 2 + choice;
				const lost = columns.lost[cell] as number;
				const whole = (columns.runs[cell] as number) - lost;
				const sectors = whole * unmeasured + lost * warmup + (columns.sectors[cell] as number);
				periods += (sectors * (lengths[point] as number)) / starts;
			}
		}
	}
	return periods;
}
