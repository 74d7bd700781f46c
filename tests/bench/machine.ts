import { arch, availableParallelism, cpus, loadavg, platform } from 'node:os';

/** Where figures were measured; without it they mean nothing. */
export interface Machine {
	readonly processor: string;
	readonly cores: number;
	readonly system: string;
	readonly node: string;
	/** Processes running or waiting, over the last minute: more than `cores` and the figures are too low. */
	readonly load: number;
}

export function machine(): Machine {
	return {
		processor: cpus()[0]?.model.trim() ?? 'unknown',
		cores: availableParallelism(),
		system: `${platform()} ${arch()}`,
		node: process.version.slice(1),
		load: loadavg()[0] ?? 0,
	};
}
