import { existsSync, mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import type { WorkerHost } from '../host/worker-handle.ts';
import { jsonOption } from './common-options.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { helpText } from './help.ts';
import { largestResult, readBytes } from './input-file.ts';
import { outputProblems, writeJson, writeOutput } from './output-file.ts';
import { type CheckedPack, checkPack } from './pack/check-pack.ts';
import { packed } from './pack/manifest.ts';
import { builtProgram } from './pack/program.ts';
import { type MadeAgain, madeAgain, type Reproduction } from './pack/reproduction.ts';
import { runPacked } from './pack/run-packed.ts';
import { problemList } from './problem-list.ts';
import { readArguments } from './read-arguments.ts';
import { reproduceTable } from './reproduce-table.ts';
import { study } from './study.ts';
import type { Terminal } from './terminal.ts';
import { workOptions } from './work-options.ts';

const command = {
	name: 'reproduce',
	purpose: 'checks a pack that `study --pack` wrote, and makes its figures again.',
	file: 'FILE.zip',
	example: 'npm run --silent reproduce -- fan.zip',
	options: {
		'packed-only': {
			sentence: 'Leaves out what this program makes of the packed scenario, where it is another one.',
			fallback: false,
		},
		workers: workOptions.workers,
		json: jsonOption,
	},
	topics: {},
	remarks: [
		'Every byte of the pack is held against its digests; a damaged file is named. The packed program then runs with Node alone, offline, without an environment, in a folder of its own. A pack holds a program all the same: run it only if you trust where it comes from.',
		'Exit codes: 0 done, every figure is the same with the packed program; 1 done, and some are not; 2 bad input, or a damaged pack; 130 interrupted (Ctrl-C).',
		'All figures are simulated estimates; measurement on real hardware decides.',
	],
};

/** The `reproduce` command. */
export async function reproduce(argv: readonly string[], terminal: Terminal, host: WorkerHost): Promise<ExitCode> {
	const { file, values, help, problems: argumentProblems } = readArguments(argv, command);
	if (help) {
		terminal.out(helpText(command, help));
		return exitCodes.done;
	}
	const input = file === '' ? { problems: [] } : readBytes(file, command.file, largestResult);
	const checked = 'bytes' in input ? checkPack(input.bytes) : input;
	const problems = [...argumentProblems, ...outputProblems('--json', values.json, file)];
	if ('problems' in checked || problems.length > 0) {
		terminal.err(problemList([...problems, ...('problems' in checked ? checked.problems : [])]));
		if ('bytes' in input && 'problems' in checked) terminal.err('Take the pack again from where it was kept.\n');
		return exitCodes.badInput;
	}

	// permissions hold for real paths
	const folder = mkdtempSync(join(realpathSync(tmpdir()), 'anglespread-pack-'));
	try {
		return await compare(checked, folder, terminal, host, values);
	} finally {
		rmSync(folder, { recursive: true, force: true });
	}
}

async function compare(
	{ manifest, files }: CheckedPack,
	folder: string,
	terminal: Terminal,
	host: WorkerHost,
	options: { readonly 'packed-only': boolean; readonly workers: number | null; readonly json: string | null },
): Promise<ExitCode> {
	const tell = (words: string): void => void (terminal.isLive && terminal.err(`${words}\n`));
	for (const [path, bytes] of files) {
		mkdirSync(dirname(join(folder, path)), { recursive: true });
		writeFileSync(join(folder, path), bytes);
	}
	const results = readFileSync(join(folder, packed.results), 'utf8');
	const workers = options.workers === null ? [] : ['--workers', String(options.workers)];

	tell('Running the packed program …');
	const { code, words } = await runPacked(folder, [...manifest.arguments, ...workers], terminal.onInterrupt);
	if (code === exitCodes.interrupted || code === null) return exitCodes.interrupted;
	const again = join(folder, packed.again);
	const own: MadeAgain | { readonly refused: string } = existsSync(again)
		? await madeAgain(results, readFileSync(again, 'utf8'))
		: { refused: `the packed program ended with ${code} and wrote no results. Its last words: ${words}` };
	if ('refused' in own) {
		terminal.err(`The figures could not be compared: ${own.refused}\n`);
		return exitCodes.notShown;
	}

	const isSameProgram = isBuiltProgram(files);
	let current: Reproduction['current'] = null;
	if (!isSameProgram && !options['packed-only']) {
		tell('Running this program …');
		const made = await runCurrent(folder, [...manifest.arguments, ...workers], terminal, host);
		if (made === 'interrupted') return exitCodes.interrupted;
		current = 'refused' in made ? made : await madeAgain(results, made.text);
	}
	const { version, scenario, seed, resultDigest } = manifest;
	const reproduction: Reproduction = {
		format: 'anglespread-reproduction',
		formatVersion: 1,
		pack: { version, scenario, seed, resultDigest, files: files.size },
		node: process.versions.node,
		platform: `${process.platform} ${process.arch}`,
		packed: own,
		current,
		isSameProgram,
	};
	terminal.out(reproduceTable(reproduction));
	if (options.json !== null && !(await writeOutput(options.json, terminal, (path) => writeJson(path, reproduction)))) {
		return exitCodes.broken;
	}
	return own.differences.length === 0 && own.sameDrives ? exitCodes.done : exitCodes.notShown;
}

/** What this program makes of the packed scenario and arguments. */
async function runCurrent(
	folder: string,
	args: readonly string[],
	terminal: Terminal,
	host: WorkerHost,
): Promise<{ readonly text: string } | { readonly refused: string } | 'interrupted'> {
	const again = join(folder, 'current.json');
	const places: Readonly<Record<string, string>> = {
		[packed.scenario]: join(folder, packed.scenario),
		[packed.again]: again,
	};
	let words = '';
	const quiet: Terminal = {
		...terminal,
		out: () => {},
		err: (text) => {
			words += text;
			if (terminal.isLive) terminal.err(text);
		},
	};
	const code = await study(
		args.map((word) => places[word] ?? word),
		quiet,
		host,
	);
	if (code === exitCodes.interrupted) return 'interrupted';
	return existsSync(again) ? { text: readFileSync(again, 'utf8') } : { refused: words.replaceAll(/\s+/g, ' ').trim() };
}

/** Whether a pack's program is the one that runs here, file by file. */
function isBuiltProgram(files: CheckedPack['files']): boolean {
	const program = builtProgram();
	return program?.every(({ path, bytes }) => bytes.equals(files.get(`program/${path}`) ?? Buffer.alloc(0))) ?? false;
}
