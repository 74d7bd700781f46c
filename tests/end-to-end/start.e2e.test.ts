import { type ChildProcess, spawn } from 'node:child_process';
import { createServer } from 'node:net';
import { expect, onTestFinished, test } from 'vitest';
import { projectRoot } from '../../src/tooling/project.mjs';

interface Start {
	readonly process: ChildProcess;
	/** What it has printed so far. */
	readonly output: () => string;
	/** Resolves as soon as the output matches. */
	readonly prints: (pattern: RegExp) => Promise<RegExpExecArray>;
	readonly ends: Promise<number | null>;
}

/** `npm start` without npm, to see its own exit code. */
function start(): Start {
	const child = spawn(process.execPath, ['src/tooling/start.mjs'], {
		cwd: projectRoot,
		stdio: ['ignore', 'pipe', 'pipe'],
	});
	onTestFinished(() => void child.kill('SIGKILL'));
	let text = '';
	const listeners = new Set<() => void>();
	const take = (chunk: Buffer) => {
		text += chunk.toString();
		for (const listener of listeners) listener();
	};
	child.stdout.on('data', take);
	child.stderr.on('data', take);
	const ends = new Promise<number | null>((resolve) => {
		child.on('close', resolve);
	});
	const prints = (pattern: RegExp) =>
		new Promise<RegExpExecArray>((resolve, reject) => {
			const look = () => {
				const match = pattern.exec(text);
				if (match) resolve(match);
			};
			listeners.add(look);
			void ends.then((code) => reject(new Error(`ended with ${code} before ${pattern}:\n${text}`)));
			look();
		});
	return { process: child, output: () => text, prints, ends };
}

const address = /http:\/\/127\.0\.0\.1:(\d+)\//;

/** Something else on the port that npm start tries first; where this machine has that already, good too. */
async function takePort(port: number): Promise<void> {
	const other = createServer();
	onTestFinished(() => void other.close());
	await new Promise<void>((resolve) => {
		other.once('error', () => resolve()).listen(port, '127.0.0.1', resolve);
	});
}

// one run for all of it
test('npm start prints the comparison and the address of the page, on the next port where 8360 is taken; Ctrl-C ends it with 0', async () => {
	await takePort(8360);
	const run = start();
	const [url, port] = await run.prints(address);
	expect(run.output()).not.toContain('Installing');
	expect(run.output()).toMatch(/half-bus/i);
	expect(run.output()).toMatch(/virtual.neutral/i);
	expect(run.output()).toMatch(/first look at 80 drives; a thousand: npm run study/);
	expect(run.output()).toContain('Port 8360 is taken');
	expect(Number(port)).toBeGreaterThan(8360);

	const page = await fetch(url);
	expect(page.status).toBe(200);
	expect(page.headers.get('content-security-policy')).toContain("script-src 'self'");
	expect(await page.text()).toContain('Anglespread');

	run.process.kill('SIGINT');
	expect(await run.ends).toBe(0);
}, 180_000);

test('Ctrl-C between the end of the study and the page is heeded: 130', async () => {
	const run = start();
	await run.prints(/half-bus/i);
	// held, it learns of the study's end only after the signal, though that is over by then
	run.process.kill('SIGSTOP');
	await new Promise((resolve) => setTimeout(resolve, 2000));
	run.process.kill('SIGINT');
	run.process.kill('SIGCONT');
	expect(await run.ends).toBe(130);
	expect(run.output()).not.toMatch(address);
});

test('Ctrl-C while it simulates ends it with 130 and serves nothing', async () => {
	const run = start();
	await new Promise((resolve) => setTimeout(resolve, 800));
	run.process.kill('SIGINT');
	expect(await run.ends).toBe(130);
	expect(run.output()).not.toMatch(address);
});
