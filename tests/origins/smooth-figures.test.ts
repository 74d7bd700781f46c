import { expect, test } from 'vitest';
import { buildDrive } from '../../shared/drive/build-drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { middleUniforms } from '../../shared/origins/drive-design.ts';
import { type FigurePlan, smoothFigures } from '../../shared/origins/smooth-figures.ts';
import { oneSpeed } from './one-speed.ts';

const scenario = oneSpeed(
	{ 'motor.placement': 1, 'sensing.divider.top': 0.01 },
	{ warmup: 6, settle: 3, measured: 13 },
);
const compensation = { halfBus: 78e-6, virtualNeutral: 78e-6 };
const plan: FigurePlan = {
	scenario,
	point: 0,
	compensation,
	design: { kind: 'random', seed: 'figures', point: 0 },
	phases: 0,
};

test('figures are the means of the interpolated errors by sector kind, the first measured sector being kind 3', () => {
	const drive = middleUniforms();
	const { figures } = smoothFigures({ ...plan, design: { kind: 'given', drives: [drive] } }, 0, 1);
	const built = buildDrive(
		{ ...scenario.values, 'noise.sigma': 0 },
		{ pwmPhase: 0.5, ripplePhase: 0.5, ringPhase: 0.5 },
		compensation,
	);
	const pair = simulatePair(built, silence, { interpolated: true });
	for (const [c, choice] of (['halfBus', 'virtualNeutral'] as const).entries()) {
		const errors = [...(pair[choice].interpolated ?? [])];
		expect(errors).toHaveLength(13);
		// 6 warm-up and 3 settling sectors: measured sector j is number 9 + j
		for (let kind = 0; kind < 6; kind += 1) {
			const own = errors.filter((_, j) => (9 + j) % 6 === kind);
			expect(figures[c * 6 + kind]).toBeCloseTo(own.reduce((sum, one) => sum + one, 0) / own.length, 12);
		}
	}
});

test('a drive has the same figures in any shard, and noise has no part in them', () => {
	const whole = smoothFigures(plan, 0, 6).figures;
	const parts = [0, 2, 5].map((from, i) => smoothFigures(plan, from, [2, 5, 6][i] as number).figures);
	expect([...parts.flatMap((one) => [...one])]).toEqual([...whole]);
	const noisy = { ...scenario, values: { ...scenario.values, 'noise.sigma': 0.05 } };
	expect(smoothFigures({ ...plan, scenario: noisy }, 0, 6).figures).toEqual(whole);
});

test('with 8 phases the figures do not hang on the uniforms of the moment; with none they do', () => {
	const drives = [0.1, 0.6].map((phase) => {
		const drive = middleUniforms();
		drive.start.fill(phase, 0, 2);
		return drive;
	});
	const given = { ...plan, design: { kind: 'given', drives } as const };
	const halves = (phases: number) => {
		const { figures } = smoothFigures({ ...given, phases }, 0, 2);
		return [[...figures.subarray(0, 12)], [...figures.subarray(12)]];
	};
	const [one, other] = halves(8);
	expect(one).toEqual(other);
	expect(halves(0)[0]).not.toEqual(halves(0)[1]);
});

test('a drive that breaks down is named and has no figure, and the others keep theirs', () => {
	let runs = 0;
	const { figures, failures } = smoothFigures(plan, 0, 3, {
		simulate(drive, noise, options) {
			runs += 1;
			if (runs === 2) throw new Error('events without end');
			return simulatePair(drive, noise, options);
		},
	});
	expect(failures).toEqual([{ unit: 1, message: 'events without end' }]);
	expect([...figures.subarray(12, 24)].every(Number.isNaN)).toBe(true);
	expect(figures.subarray(24, 36)).toEqual(smoothFigures(plan, 2, 3).figures);
});
