import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { ensureBuilt } from '../../src/tooling/ensure-built.mjs';
import { smallScenarioText } from '../study/small-scenario.ts';

let folder: string;
let program: string;
beforeAll(async () => {
	program = `${await ensureBuilt('command-line')}study.js`;
	folder = mkdtempSync(join(tmpdir(), 'anglespread-'));
	// a stated compensation: nothing but drives is simulated
	const text = smallScenarioText({ detection: { compensation: '60 µs' } });
	writeFileSync(join(folder, 'small.json'), text);
});
afterAll(() => rmSync(folder, { recursive: true }));

interface Ended {
	readonly isKilled: boolean;
	readonly err: string;
	readonly seconds: number;
}

/** Runs the study with a journal. @param kill takes the function that kills its process at once, nothing being told */
async function run(name: string, workers: number, kill: (now: () => void) => void): Promise<Ended> {
	const args = ['small.json', '--units', '400', '--workers', String(workers)];
	const files = ['--journal', `${name}.journal`, '--json', `${name}.json`];
	const began = performance.now();
	const child = spawn(process.execPath, [program, ...args, ...files], {
		cwd: folder,
		stdio: ['ignore', 'ignore', 'pipe'],
	});
	let err = '';
	child.stderr.on('data', (text) => {
		err += text;
	});
	kill(() => void child.kill('SIGKILL'));
	const [code, signal] = await new Promise<[number | null, string | null]>((resolve) =>
		child.on('close', (...ended) => resolve(ended)),
	);
	if (signal !== 'SIGKILL')
		expect({ code, err }).toEqual({ code: 0, err: expect.stringMatching(/^(Journal (.|\n)+\n)?$/) });
	return { isKilled: signal === 'SIGKILL', err, seconds: (performance.now() - began) / 1000 };
}

/** Spread over 0 to 1 without a gap or a run, the same each time. */
const spread = (place: number): number => (place * 0.618034) % 1;

/** Calls back as soon as the file grows, or after 5 s. */
function onGrowth(path: string, callback: () => void): void {
	const size = (): number => (existsSync(path) ? statSync(path).size : 0);
	const [before, began] = [size(), performance.now()];
	const watch = setInterval(() => {
		if (size() === before && performance.now() - began < 5000) return;
		clearInterval(watch);
		callback();
	}, 1);
}

/** Goes on killing and beginning again until so many were killed and the last one was not. */
async function killedOverAndOver(
	name: string,
	workers: number,
	{ kills, lifetime }: { kills: number; lifetime: number },
) {
	const journal = join(folder, `${name}.journal`);
	const results: string[] = [];
	const remarks: string[] = [];
	let killed = 0;
	for (let place = 1; killed < kills || results.length === 0; place += 1) {
		const { isKilled, err } = await run(name, workers, (now) => {
			if (killed >= kills) return;
			const wait = spread(place) * lifetime * 1000;
			// half of them at any time of its life, half just after something was kept
			if (place % 2 === 0) setTimeout(now, wait);
			else onGrowth(journal, () => setTimeout(now, spread(place) * 100));
		});
		remarks.push(err);
		if (isKilled) killed += 1;
		else {
			results.push(readFileSync(join(folder, `${name}.json`), 'utf8'));
			if (killed < kills) rmSync(journal);
		}
	}
	return { killed, results, remarks };
}

test('a study killed 50 times at moments spread over its life goes on each time, and ends with every byte of one never killed', {
	timeout: 240_000,
}, async () => {
	const { seconds: lifetime } = await run('whole', 2, () => {});
	const whole = readFileSync(join(folder, 'whole.json'), 'utf8');
	const chains = await Promise.all([
		killedOverAndOver('one', 1, { kills: 25, lifetime }),
		killedOverAndOver('two', 2, { kills: 25, lifetime }),
	]);
	for (const { killed, results, remarks } of chains) {
		expect(killed).toBe(25);
		expect(results.length).toBeGreaterThan(0);
		for (const result of results) expect(result).toBe(whole);
		// what was kept was used: most runs began with drives of an earlier one
		const resumed = remarks.filter((err) => /\d+ of 400 drives are\s+taken from it/.test(err));
		expect(resumed.length).toBeGreaterThan(5);
	}
});
