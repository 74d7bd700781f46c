import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect } from 'vitest';
import { nodeHost } from '../../src/host/node-host.ts';
import type { WorkerHost } from '../../src/host/worker-handle.ts';
import { buildWorker } from '../host/build-worker.ts';

/** What the tests of a command work with: real workers, a folder that is removed afterwards, and a scenario in it. */
export async function commandBench(scenarioText: string) {
	const host: WorkerHost = nodeHost(await buildWorker('workers/node-worker.ts'));
	const folder = mkdtempSync(join(tmpdir(), 'anglespread-'));
	afterAll(() => rmSync(folder, { recursive: true }));
	const scenario = join(folder, 'small.json');
	writeFileSync(scenario, scenarioText);
	return { host, folder, scenario };
}

/** Bad input must be found before any worker is asked for. */
export const unreachableHost: WorkerHost = {
	cores: 1,
	spawn: () => expect.unreachable('bad input needs no worker'),
};
