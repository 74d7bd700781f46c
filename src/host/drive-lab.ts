import type { DriveRequest } from '../../shared/one-drive/drive-request.ts';
import type { DriveWindow, WindowRequest } from '../../shared/one-drive/drive-window.ts';
import type { PairOutcome } from '../../shared/one-drive/unit-outcomes.ts';
import { removals } from '../../shared/one-drive/without.ts';
import type { StudyPlan } from '../../shared/study/plan.ts';
import type { TaskInput, TaskName, TaskOutput } from '../../workers/shard-api.ts';
import type { Pool } from './pool.ts';
import { silenceLimitOf } from './silence-limit.ts';

/** Where single drives are simulated again. Everything rejects with the reason in words where it cannot be done. */
export interface DriveLab {
	/** Every start of a unit at every point: point · starts + start. */
	outcomes(plan: StudyPlan, unit: number): Promise<readonly PairOutcome[]>;
	/** A drive as it is, then with each disturbance taken out. */
	causes(request: DriveRequest): Promise<readonly PairOutcome[]>;
	window(request: WindowRequest): Promise<DriveWindow>;
}

/** Single drives, simulated again by the workers of a pool. */
export function driveLab(pool: Pool): DriveLab {
	const all = async <Name extends TaskName>(
		name: Name,
		input: TaskInput<Name>,
		to: number,
		silenceLimit: number,
	): Promise<TaskOutput<Name>[]> => {
		const found: { readonly from: number; readonly output: TaskOutput<Name> }[] = [];
		const failures: string[] = [];
		await pool.run({
			name,
			input,
			to,
			silenceLimit,
			onShard: (output, from) => void found.push({ from, output }),
			onFailure: (_from, _to, message) => void failures.push(message),
		});
		if (failures.length > 0) throw new Error(failures[0]);
		return found.sort((a, b) => a.from - b.from).map(({ output }) => output);
	};
	return {
		async outcomes(plan, unit) {
			const { points, values } = plan.scenario;
			const to = points.length * (values['trial.starts'] as number);
			const parts = await all('unitOutcomes', { plan, unit }, to, silenceLimitOf(plan.scenario));
			return parts.flatMap(({ outcomes }) => outcomes);
		},
		async causes(request) {
			const limit = silenceLimitOf(request.plan.scenario);
			const parts = await all('driveCauses', request, removals.length + 1, limit);
			return parts.flatMap(({ outcomes }) => outcomes);
		},
		async window(request) {
			const [window] = await all('driveWindow', request, 1, 10 * silenceLimitOf(request.drive.plan.scenario));
			if (!window) throw new Error('the drive was not simulated');
			return window;
		},
	};
}
