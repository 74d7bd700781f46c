import { removals } from '../../shared/one-drive/without.ts';
import type { TaskInput, TaskName, TaskOutput } from '../../workers/shard-api.ts';
import { browserHost } from '../host/browser-host.ts';
import { createPool } from '../host/pool.ts';
import { silenceLimitOf } from '../host/silence-limit.ts';
import type { DriveLab } from './model/one-drive/drive-lab.ts';

/** Single drives on a worker of their own, so that they need not wait for a study. */
export function driveLab(): DriveLab {
	const pool = createPool(browserHost(), 1);
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
