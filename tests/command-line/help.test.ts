import { expect, test } from 'vitest';
import { parameters } from '../../shared/parameters/parameters.ts';
import { board } from '../../src/command-line/board.ts';
import { changes } from '../../src/command-line/changes.ts';
import { measured } from '../../src/command-line/measured.ts';
import { study } from '../../src/command-line/study.ts';
import { votes } from '../../src/command-line/votes.ts';
import { textWidth, widthOf } from '../../src/command-line/wrap-text.ts';
import { fakeTerminal } from './fake-terminal.ts';

const noHost = { cores: 1, spawn: () => expect.unreachable('help needs no worker') };
const commands = {
	study: (argv: string[], terminal: ReturnType<typeof fakeTerminal>['terminal']) => study(argv, terminal, noHost),
	board,
	measured: (argv: string[], terminal: ReturnType<typeof fakeTerminal>['terminal']) => measured(argv, terminal, noHost),
	votes: (argv: string[], terminal: ReturnType<typeof fakeTerminal>['terminal']) => votes(argv, terminal, noHost),
	changes,
};

for (const [name, command] of Object.entries(commands)) {
	test(`${name} --help shows a worked line, the exit codes and every option within 80 columns`, async () => {
		const { terminal, kept } = fakeTerminal();
		expect(await command(['--help'], terminal)).toBe(0);
		expect(kept.err).toBe('');
		expect(kept.out).toContain(`npm run --silent ${name} -- `);
		expect(kept.out).toMatch(/Exit codes: 0 done;\s(?:1 done,[^;]+;\s)?2\sbad\sinput/);
		// two small files are compared before anybody could interrupt
		if (name !== 'changes') expect(kept.out).toMatch(/;\s130\sinterrupted/);
		expect(kept.out).toContain('--json FILE');
		for (const line of kept.out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
	});
}

test('study --help parameters lists every parameter record within 80 columns', async () => {
	const { terminal, kept } = fakeTerminal();
	expect(await commands.study(['--help', 'parameters'], terminal)).toBe(0);
	for (const { id, sentence } of parameters) {
		expect(kept.out).toContain(`${id}  `);
		expect(kept.out.replaceAll(/\s+/g, ' ')).toContain(sentence);
	}
	// a condition that is stated plainly is swept all the same
	expect(kept.out.replaceAll(/\s+/g, ' ')).toContain('default 3000 rpm, range ± 2 % Speed');
	for (const line of kept.out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
});
