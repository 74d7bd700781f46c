import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import type { BudgetsResult } from '../../shared/budgets/budgets-result.ts';
import type { OriginsResult } from '../../shared/origins/origins-result.ts';
import { budgets } from '../../src/command-line/budgets.ts';
import { origins } from '../../src/command-line/origins.ts';
import { textWidth, widthOf } from '../../src/command-line/wrap-text.ts';
import { smallScenarioText } from '../study/small-scenario.ts';
import { commandBench, unreachableHost } from './command-bench.ts';
import { fakeTerminal } from './fake-terminal.ts';

// every run starts threads of its own: slow where the machine is busy with other tests
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const { host, folder, scenario } = await commandBench(smallScenarioText());

const commands = { origins, budgets };
type Name = keyof typeof commands;
async function run(name: Name, argv: readonly string[], { from = host, live = false } = {}) {
	const { terminal, kept } = fakeTerminal(live);
	const code = await commands[name](argv, terminal, from);
	return { code, ...kept, flat: `${kept.out}${kept.err}`.replaceAll(/\s+/g, ' ') };
}
const expectNarrow = (text: string): void => {
	for (const line of text.split('\n')) expect(widthOf(line), line).toBeLessThanOrEqual(textWidth);
};

test('origins answers first, within 80 columns, with nothing on the error stream, and writes the record as JSON', async () => {
	const json = join(folder, 'origins.json');
	const options = ['--rows', '40', '--units', '30', '--point', 'faster', '--json', json];
	const { code, out, err, flat } = await run('origins', [scenario, ...options]);
	expect({ code, err }).toEqual({ code: 0, err: '' });
	expectNarrow(out);
	const result = JSON.parse(readFileSync(json, 'utf8')) as OriginsResult;
	expect(out.split('\n')[2]).toMatch(/^Of the half-bus spread at faster/);
	expect(flat).toContain(result.sentence.replaceAll(/\s+/g, ' '));
	for (const words of ['dangerous', result.provenance.resultDigest, '30 drives', 'phase-divider resistors']) {
		expect(flat).toContain(words);
	}
	expect(result).toMatchObject({
		format: 'anglespread-origins',
		point: 'faster',
		rows: 40,
		provenance: { seed: 'demo', partial: false, units: { failed: 0 }, scenarioDigest: expect.any(String) },
	});
	const { groups } = result.choices.virtualNeutral;
	expect(groups.reduce((sum, { first }) => sum + first.value, 0)).toBeGreaterThan(0.5);
});

test('budgets answers first, within 80 columns, says why the three differ, and writes the record as JSON', async () => {
	const json = join(folder, 'budgets.json');
	const { code, out, err, flat } = await run('budgets', [scenario, '--units', '100', '--json', json]);
	expect({ code, err }).toEqual({ code: 0, err: '' });
	expectNarrow(out);
	const result = JSON.parse(readFileSync(json, 'utf8')) as BudgetsResult;
	expect(out.split('\n')[2]).toMatch(/^Half-bus at fast: with everything at its worse limit/);
	expect(flat).toContain(result.why.replaceAll(/\s+/g, ' '));
	expect(result).toMatchObject({
		format: 'anglespread-budgets',
		point: 'fast',
		phases: 8,
		provenance: { partial: false },
	});
	const worst = result.choices.halfBus.kinds[result.choices.halfBus.worstKind ?? 0];
	expect(worst?.extremeValue.linear).toBeGreaterThan(worst?.rootSumSquare ?? Infinity);
});

for (const name of Object.keys(commands) as Name[]) {
	test(`${name}: bad options, an unknown point and a bad scenario are listed before anything runs: 2`, async () => {
		const { code, out, flat } = await run(name, [scenario, '--point', 'fastr', '--units', 'x', '--json', folder], {
			from: unreachableHost,
		});
		expect({ code, out }).toEqual({ code: 2, out: '' });
		for (const words of ['--point: fastr', 'did you mean fast', '--units: x', '--json']) expect(flat).toContain(words);
		const bad = join(folder, 'bad.json');
		writeFileSync(bad, smallScenarioText({ motor: { polePairs: 0.5 } }));
		expect(await run(name, [bad, '--workers', '0'], { from: unreachableHost })).toMatchObject({
			code: 2,
			flat: expect.stringMatching(/--workers.*motor\.polePairs/),
		});
	});

	test(`${name} --help shows a worked line, the exit codes and every option within 80 columns`, async () => {
		const { code, out, err } = await run(name, ['--help'], { from: unreachableHost });
		expect({ code, err }).toEqual({ code: 0, err: '' });
		expectNarrow(out);
		expect(out).toContain(`npm run --silent ${name} -- `);
		expect(out).toMatch(/0 done; 2 bad input/);
		for (const option of ['--point NAME', '--json FILE', '--seed TEXT']) expect(out).toContain(option);
	});

	test(`${name}, interrupted, prints what finished, marked partial: 130; progress goes to a terminal only`, async () => {
		const { terminal, kept, interrupt } = fakeTerminal(true);
		const long = name === 'origins' ? ['--rows', '50000'] : ['--units', '500000'];
		const running = commands[name]([scenario, ...long], terminal, host);
		await vi.waitFor(() => expect(kept.err).toMatch(/[1-9]\d* of .* drives/), { timeout: 30_000, interval: 20 });
		interrupt();
		expect(await running).toBe(130);
		expect(kept.out).toContain('PARTIAL RESULT: interrupted after');
		expect(kept.out).not.toContain('NaN');
		expectNarrow(kept.out);
	});
}
