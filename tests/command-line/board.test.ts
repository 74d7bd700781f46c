import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { board } from '../../src/command-line/board.ts';
import { fakeTerminal } from './fake-terminal.ts';

interface Figures {
	readonly errors: readonly number[];
	readonly crossings: readonly (number | null)[];
	readonly meanTorque: number;
	readonly lost: boolean;
	readonly duties?: readonly number[];
	readonly torques?: readonly number[];
	readonly readings?: readonly (readonly number[])[];
}
interface Traces {
	readonly cases: readonly {
		readonly case: number;
		readonly parameters: unknown;
		readonly deviations: unknown;
		readonly expected: Readonly<Record<'halfBus' | 'virtualNeutral', Figures>>;
	}[];
}

const traces = JSON.parse(readFileSync('tests/data/reference-traces.json', 'utf8')) as Traces;
let folder: string;
beforeAll(() => {
	folder = mkdtempSync(join(tmpdir(), 'anglespread-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

async function run(file: unknown, ...options: string[]) {
	const input = join(folder, 'boards.json');
	const output = join(folder, 'out.json');
	writeFileSync(input, typeof file === 'string' ? file : JSON.stringify(file));
	const { terminal, kept } = fakeTerminal();
	const code = await board([input, '--json', output, ...options], terminal);
	const written =
		code === 0
			? (JSON.parse(readFileSync(output, 'utf8')) as {
					boards: (Record<'halfBus' | 'virtualNeutral', Figures> & { case: number })[];
				})
			: { boards: [] };
	return { code, ...kept, boards: written.boards };
}
const given = traces.cases.map(({ case: number, parameters, deviations }) => ({
	case: number,
	parameters,
	deviations,
}));

test('all reference boards come out in order, within 0.02° of the independent integration', async () => {
	// Source: the reference traces, an independent fixed-step integration at 5 ns.
	const { code, boards, out, err } = await run({ cases: given });
	expect({ code, err }).toEqual({ code: 0, err: '' });
	expect(boards.map((one) => one.case)).toEqual(traces.cases.map((one) => one.case));
	traces.cases.forEach(({ expected, case: number }, i) => {
		for (const choice of ['halfBus', 'virtualNeutral'] as const) {
			const [got, wanted] = [boards[i]?.[choice], expected[choice]];
			expect(got?.lost, `${number} ${choice}`).toBe(wanted.lost);
			expect(got?.errors).toHaveLength(wanted.errors.length);
			wanted.errors.forEach((error, j) => {
				expect(Math.abs((got?.errors[j] ?? Number.NaN) - error), `${number} ${choice} sector ${j}`).toBeLessThan(0.02);
			});
			expect(got?.crossings.map((one) => one === null)).toEqual(wanted.crossings.map((one) => one === null));
			expect(got).not.toHaveProperty('readings');
		}
	});
	expect(out).toContain('Board 1\n');
});

test('--readings adds duties, torques and readings in the form of the traces', async () => {
	const { boards } = await run({ cases: given.slice(0, 1) }, '--readings');
	const { halfBus } = boards[0] ?? expect.unreachable();
	const wanted = traces.cases[0]?.expected.halfBus;
	expect(halfBus.duties).toHaveLength(wanted?.duties?.length ?? 0);
	expect(halfBus.torques).toHaveLength(wanted?.torques?.length ?? 0);
	// every reading of the traces is among ours, at the same instant to a nanosecond
	for (const [time = 0] of wanted?.readings ?? []) {
		expect(halfBus.readings?.some(([ours = 0]) => Math.abs(ours - time) < 1e-8)).toBe(true);
	}
	expect(halfBus.readings?.[0]).toHaveLength(6);
});

test('every problem of a file of boards is listed: 2', async () => {
	const cases = [
		{ case: 1, parameters: { 'operation.speeed': 3000 }, deviations: { pwmPhase: 2 } },
		{ case: 2, parameters: { 'motor.polePairs': 'four' }, deviations: { 'motor.placement': [1, 2] } },
	];
	const { code, out, err } = await run({ cases });
	expect({ code, out }).toEqual({ code: 2, out: '' });
	for (const words of ['operation.speeed', 'pwmPhase', 'cases[1].parameters.motor.polePairs', 'motor.placement']) {
		expect(err).toContain(words);
	}
});

test('a file that is not JSON, and one without boards, give 2', async () => {
	expect((await run('not JSON')).code).toBe(2);
	expect((await run({ cases: [] })).code).toBe(2);
});

test('what is stated and acts on no single run is told, and a run that falls short of its torque', async () => {
	// 2E + 2RI of the default motor at 3000 rpm and 0.1 N·m is some 20 V: a bus of 19.5 V drives less of it at full duty
	const noise = { 'noise.sigma': '5 mV', 'noise.ringPhaseSpread': 90 };
	const parameters = { ...noise, 'trial.falseMargin': 8, 'requirement.angleLimit': 3, 'supply.voltage': '19.5 V' };
	const { code, out, boards } = await run({ cases: [{ case: 'low bus', parameters }, { case: 'usual' }] });
	expect(code).toBe(0);
	expect(out.replaceAll(/\s+/g, ' ')).toContain(
		'Caution: noise.sigma, noise.ringPhaseSpread, trial.falseMargin and requirement.angleLimit are stated, and no board is run with them',
	);
	expect(boards.map(({ halfBus }) => (halfBus as { torqueNotReached?: boolean }).torqueNotReached)).toEqual([
		true,
		false,
	]);
	expect(out).toMatch(/mean torque +SHORT: /);
	expect((await run({ cases: given.slice(0, 1) })).out).not.toContain('Caution:');
});
