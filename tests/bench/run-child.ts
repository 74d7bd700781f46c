import { spawn } from 'node:child_process';

export interface ChildRun {
	/** From its start to its end, or to what it was to say. */
	readonly seconds: number;
	/** Most memory that it held resident, bytes; NaN where that was not asked. */
	readonly memory: number;
	/** Processor time of all its threads, s; NaN where that was not asked. */
	readonly processor: number;
}

/**
 * Tells of the process's memory and processor time on a stream of its own; workers, which load it
 * too, say nothing. Linux keeps a most of the program itself; the one that every
 * system has begins with that of the process it was forked from.
 */
const teller = `data:text/javascript,${encodeURIComponent(`
	import { readFileSync, writeSync } from 'node:fs';
	import { isMainThread } from 'node:worker_threads';
	const most = () => {
		try {
			return /VmHWM:\\s*(\\d+)/.exec(readFileSync('/proc/self/status', 'utf8'))[1];
		} catch {
			return process.resourceUsage().maxRSS;
		}
	};
	const processor = () => {
		const { user, system } = process.cpuUsage();
		return (user + system) / 1e6;
	};
	if (isMainThread) {
		process.on('exit', () => writeSync(3, JSON.stringify({ memory: 1024 * most(), processor: processor() })));
	}
`)}`;

const unweighed = { memory: Number.NaN, processor: Number.NaN };

/**
 * Runs a Node program of its own process. Rejects where it fails.
 *
 * @param until what it says when it has done what is timed; it is ended then
 */
export function runChild(
	args: readonly string[],
	{ weighed = false, until }: { readonly weighed?: boolean; readonly until?: RegExp } = {},
): Promise<ChildRun> {
	return new Promise((resolve, reject) => {
		const began = performance.now();
		const child = spawn(process.execPath, [...(weighed ? ['--import', teller] : []), ...args], {
			stdio: ['ignore', 'pipe', 'pipe', 'pipe'],
		});
		let seconds = Number.NaN;
		const said = ['', '', '', ''];
		for (const [place, stream] of child.stdio.entries()) {
			stream?.on('data', (piece: Buffer) => {
				said[place] += piece.toString('utf8');
				if (place !== 1 || !until?.test(said[1] as string) || !Number.isNaN(seconds)) return;
				seconds = (performance.now() - began) / 1000;
				child.kill('SIGTERM');
			});
		}
		child.on('error', reject);
		child.on('close', (code) => {
			if (until === undefined) seconds = (performance.now() - began) / 1000;
			if (until === undefined ? code !== 0 : Number.isNaN(seconds)) {
				reject(new Error(`${args.join(' ')} ended with ${code}: ${said[2]}`));
			} else resolve({ seconds, ...(weighed ? (JSON.parse(said[3] as string) as typeof unweighed) : unweighed) });
		});
	});
}
