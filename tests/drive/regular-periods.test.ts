import { afterEach, describe, expect, it, test, vi } from 'vitest';
import type { Deviations } from '../../shared/drive/build-drive.ts';
import { choiceNames, type Drive } from '../../shared/drive/drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { PowerStage } from '../../shared/drive/power-stage/power-stage.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { keyedNoise } from '../../shared/sampling/keyed-noise.ts';
import type { Values } from '../../shared/scenario/scenario.ts';
import { anyDrive } from './any-drive.ts';
import { driveWith, farthest } from './drives.ts';

// The short way against the careful way from event to event,
// which is taken wherever somebody observes the run.

const cases: readonly (readonly [string, Values])[] = [
	['high-side chopping', {}],
	['high-side chopping with gaps in the current', { 'operation.speed': 900, 'operation.torque': 0.009 }],
	['low-side chopping with a shunt', { 'inverter.chopping': 'low-side', 'inverter.shuntResistance': 0.03 }],
	[
		'low-side chopping with gaps',
		{ 'inverter.chopping': 'low-side', 'operation.speed': 900, 'operation.torque': 0.006 },
	],
	['complementary chopping', { 'inverter.chopping': 'complementary' }],
	['complementary chopping with dead time', { 'inverter.chopping': 'complementary', 'inverter.deadTime': 1.5e-6 }],
	['both switches chopped', { 'inverter.chopping': 'both' }],
	[
		'both switches chopped, with gaps',
		{ 'inverter.chopping': 'both', 'operation.speed': 700, 'operation.torque': 0.004 },
	],
	[
		'both switches chopped, with gaps, the bus at times below two back-EMFs',
		{
			'inverter.chopping': 'both',
			'operation.speed': 2200,
			'operation.torque': 0.002,
			'supply.rippleAmplitude': 16,
			'supply.rippleFrequency': 600,
		},
	],
	['full duty', { 'operation.torque': 0.6 }],
	['a narrow flat top', { 'motor.flatTop': 90 }],
	['a wide flat top', { 'motor.flatTop': 150, 'supply.rippleFrequency': 600, 'supply.rippleAmplitude': 2 }],
	[
		'slow filters read over the whole period',
		{
			'detection.window': 'whole',
			'detection.samples': 4,
			'detection.position': 0.5,
			'sensing.divider.capacitor': 10e-9,
			'sensing.virtualNeutral.capacitor': 10e-9,
		},
	],
	['the off-window read', { 'detection.window': 'off', 'inverter.chopping': 'complementary' }],
	['ringing', { 'noise.ringAmplitude': 6 }],
	['ringing on both phases', { 'noise.ringAmplitude': 6, 'inverter.chopping': 'both' }],
	['noise that takes crossings early', { 'noise.sigma': 0.3 }],
	['hysteresis and a converter', { 'sensing.comparator.hysteresis': 0.02, 'sensing.converter.bits': 10 }],
	['a sinusoidal back-EMF', { 'motor.shape': 'sinusoidal', 'supply.rippleAmplitude': 1 }],
	[
		'a sinusoidal back-EMF, gaps in the current',
		{ 'motor.shape': 'sinusoidal', 'operation.speed': 900, 'operation.torque': 0.009 },
	],
	[
		'a sinusoidal back-EMF, complementary chopping with dead time and slow filters',
		{
			'motor.shape': 'sinusoidal',
			'inverter.chopping': 'complementary',
			'inverter.deadTime': 1.5e-6,
			'inverter.shuntResistance': 0.02,
			'detection.window': 'whole',
			'sensing.divider.capacitor': 10e-9,
			'sensing.virtualNeutral.capacitor': 10e-9,
		},
	],
	[
		'a sinusoidal back-EMF, both switches chopped, ringing',
		{ 'motor.shape': 'sinusoidal', 'inverter.chopping': 'both', 'noise.ringAmplitude': 6 },
	],
	['a compensation that leaves no wait', { 'detection.compensation': 400e-6 }],
];

const unequal = {
	'motor.phaseResistance': [0.05, -0.08, 0.02],
	'motor.phaseInductance': [-0.07, 0.09, 0.03],
	'motor.emfConstant': [0.02, -0.01, 0.03],
	'motor.placement': [0.8, -0.6, 0.3],
	'sensing.divider.top': [0.01, -0.01, 0.004],
	ringPhase: 0.2,
};

const noise = keyedNoise('regular periods');

afterEach(() => vi.restoreAllMocks());

describe.each(cases)('with %s', (_name, parameters) => {
	it('the short way gives the careful way’s errors to 10⁻⁹°, duties to 10⁻¹² and chances to a thousandth', () => {
		for (const [j, pwmPhase] of [0.13, 0.71].entries()) {
			const drive: Drive = driveWith(
				{ 'detection.compensation': 75e-6, ...parameters },
				{ ...unequal, pwmPhase, ripplePhase: 0.4 + 0.3 * j },
			);
			const options = { chances: true, interpolated: true };
			const quick = simulatePair(drive, noise.forRun(j, 0, 0), options);
			const careful = simulatePair(drive, noise.forRun(j, 0, 0), { ...options, observe: () => {} });
			for (const choice of choiceNames) {
				const [a, b] = [quick[choice], careful[choice]];
				expect(a.measured).toBe(b.measured);
				expect(a.lost).toBe(b.lost);
				expect([...a.causes]).toEqual([...b.causes]);
				expect(farthest(a.errors, b.errors)).toBeLessThan(1e-9);
				expect(farthest(a.crossings, b.crossings)).toBeLessThan(1e-9);
				expect(farthest(a.duties, b.duties)).toBeLessThan(1e-12);
				expect(farthest(a.torques, b.torques)).toBeLessThan(1e-12);
				expect(farthest(a.interpolated ?? [], b.interpolated ?? [])).toBeLessThan(1e-4);
				for (const kind of ['early', 'late', 'missed'] as const) {
					const [p, q] = [a.chances?.[kind] ?? [], b.chances?.[kind] ?? []];
					expect(p.length).toBe(a.measured);
					for (let i = 0; i < p.length; i++) {
						const [u, v] = [p[i] as number, q[i] as number];
						// a node's look-back leaves 10⁻⁷ V: in the far tails that is felt
						expect(Math.abs(u - v)).toBeLessThanOrEqual(1e-3 * Math.max(u, v) + 1e-25);
					}
				}
			}
		}
	});
});

it('the short way gives the careful way’s errors to 10⁻⁸°, duties and torques to 10⁻¹⁰ of three hundred drives of any kind', () => {
	for (let j = 0; j < 300; j++) {
		const drive = anyDrive(`regular ${j}`);
		const quick = simulatePair(drive, silence);
		const careful = simulatePair(drive, silence, { observe: () => {} });
		for (const choice of choiceNames) {
			const [a, b] = [quick[choice], careful[choice]];
			const where = `drive ${j}, ${choice}`;
			expect(a.lost, where).toBe(b.lost);
			expect(farthest(a.errors, b.errors), where).toBeLessThan(1e-8);
			expect(farthest(a.crossings, b.crossings), where).toBeLessThan(1e-8);
			expect(farthest(a.duties, b.duties), where).toBeLessThan(1e-10);
			expect(Math.abs(a.meanTorque - b.meanTorque) / drive.operation.torque, where).toBeLessThan(1e-10);
		}
	}
});

describe.each<readonly [string, Values, Deviations]>([
	[
		'a corner and a commutation within rounding of a period’s end, the off-window read',
		{
			'inverter.chopping': 'low-side',
			'inverter.pwmFrequency': 9600,
			'detection.window': 'off',
			'detection.blanking': 5,
			'detection.majorityWindow': 1,
			'detection.majorityVotes': 1,
		},
		{ pwmPhase: 0 },
	],
	[
		'the same with ringing and a latency of two periods',
		{
			'inverter.chopping': 'complementary',
			'sensing.divider.capacitor': 5e-11,
			'sensing.comparator.latency': 1e-4,
			'detection.blanking': 0,
			'noise.ringAmplitude': 30,
			'noise.ringFrequency': 3e4,
			'noise.ringDecay': 1e-4,
		},
		{},
	],
	[
		'a commutation between the edge that still rings and the low switch',
		{
			'operation.torque': 0.001,
			'motor.emfConstant': 0.02,
			'inverter.chopping': 'complementary',
			'inverter.deadTime': 1e-5,
			'sensing.comparator.hysteresis': 0.01,
			'sensing.converter.bits': 8,
			'detection.window': 'whole',
			'detection.samples': 8,
			'detection.blanking': 0,
			'noise.ringAmplitude': 30,
			'noise.ringDecay': 1e-4,
			'trial.lostLimit': 1e6,
		},
		{},
	],
	[
		'sectors of no length: a commutation upon a reading, which the next sector takes at once',
		{
			'inverter.pwmFrequency': 3600,
			'inverter.chopping': 'complementary',
			'supply.rippleAmplitude': 21,
			'supply.rippleFrequency': 2742.2165700826745,
			'sensing.halfBus.capacitor': 7.8e-9,
			'sensing.comparator.latency': 0,
			'detection.window': 'whole',
			'detection.blanking': 0,
			'detection.advance': 30,
			'detection.intervalsAveraged': 1,
			'detection.timeout': 2,
			'detection.majorityVotes': 1,
		},
		{ pwmPhase: 0.5, ripplePhase: 0.9164489691348211 },
	],
])('with %s', (_name, parameters, deviations) => {
	it('both ways give the same errors to 10⁻⁷° and duties to 10⁻¹⁰, all of them numbers', () => {
		const drive = driveWith(parameters, deviations);
		const quick = simulatePair(drive, silence);
		const careful = simulatePair(drive, silence, { observe: () => {} });
		for (const choice of choiceNames) {
			const [a, b] = [quick[choice], careful[choice]];
			expect(a.lost).toBe(b.lost);
			expect(a.measured).toBe(b.measured);
			expect(farthest(a.errors, b.errors)).toBeLessThan(1e-7);
			expect(farthest(a.duties, b.duties)).toBeLessThan(1e-10);
			for (const value of [...a.torques, ...a.duties, a.meanTorque]) expect(value).not.toBeNaN();
		}
	});
});

describe('how much of a run is regular', () => {
	it.each([
		['rated', {}],
		['slow, with gaps in the current', { 'operation.speed': 900, 'operation.torque': 0.009 }],
		[
			'both switches chopped, with gaps in the current',
			{ 'inverter.chopping': 'both', 'operation.speed': 700, 'operation.torque': 0.004 },
		],
		['driven phases on their ramps for a third of the time', { 'motor.flatTop': 100, 'operation.speed': 900 }],
		[
			'sinusoidal, dead time',
			{ 'motor.shape': 'sinusoidal', 'inverter.chopping': 'complementary', 'inverter.deadTime': 1e-6 },
		],
	])('%s: all but a twentieth of the time', (_name, parameters) => {
		let careful = 0;
		const original = PowerStage.prototype.commit;
		vi.spyOn(PowerStage.prototype, 'commit').mockImplementation(function (this: PowerStage) {
			careful += this.length;
			original.call(this);
		});
		const drive = driveWith({ 'detection.compensation': 75e-6, ...parameters }, unequal);
		// the warm-up's 12 sectors once, then 36 for each choice
		const sectors = 12 + 2 * 36;
		const whole = (sectors * 10) / (drive.operation.speed * drive.motor.polePairs);
		simulatePair(drive, noise.forRun(0, 0, 0));
		expect(careful / whole).toBeLessThan(0.05);
		careful = 0;
		simulatePair(drive, noise.forRun(0, 0, 0), { observe: () => {} });
		expect(careful / whole).toBeGreaterThan(0.95);
	});
});

describe('working memory', () => {
	it('leaves no trace: a run in a fresh thread’s small history and in one that has grown gives the same bits', async () => {
		const slow = { 'sensing.divider.capacitor': 10e-9, 'sensing.virtualNeutral.capacitor': 10e-9 };
		const text = (drive: Drive) =>
			JSON.stringify(simulatePair(drive, noise.forRun(5, 0, 0), { chances: true }), (_key, value) =>
				ArrayBuffer.isView(value) ? [...(value as Float64Array)] : value,
			);
		const drive = driveWith(
			{ 'detection.compensation': 75e-6, 'noise.sigma': 0.2, 'operation.speed': 6000, 'supply.voltage': 48 },
			unequal,
		);
		vi.resetModules();
		const fresh = await import('../../shared/drive/simulate-pair.ts');
		const first = JSON.stringify(fresh.simulatePair(drive, noise.forRun(5, 0, 0), { chances: true }), (_key, value) =>
			ArrayBuffer.isView(value) ? [...(value as Float64Array)] : value,
		);
		simulatePair(driveWith({ ...slow, 'operation.speed': 900, 'operation.torque': 0.009 }), noise.forRun(6, 0, 0));
		for (let j = 0; j < 20; j++) simulatePair(anyDrive(`memory ${j}`), silence);
		expect(text(drive)).toBe(first);
	});
});

test('a choice’s own parts alone move its run: with another bus divider the virtual neutral’s run is the same to the last bit, and the other way round', () => {
	for (let unit = 0; unit < 30; unit++) {
		const [speed, torque] = (
			[
				[900, 0.009],
				[2000, 0.044],
				[2500, 0.07],
			] as const
		)[unit % 3] ?? [0, 0];
		const drive = driveWith(
			{ 'operation.speed': speed, 'operation.torque': torque },
			{ ...unequal, pwmPhase: unit / 30, ripplePhase: (unit * 0.37) % 1 },
		);
		const { sensing } = drive;
		const run = (changed: Partial<Drive['sensing']>) =>
			simulatePair({ ...drive, sensing: { ...sensing, ...changed } }, noise.forRun(unit, 1, 0), { chances: true });
		const plain = run({});
		const otherDivider = run({ halfBus: { ...sensing.halfBus, top: sensing.halfBus.top * 1.03 } });
		const star = sensing.virtualNeutral;
		const otherStar = run({ virtualNeutral: { ...star, ground: star.ground * 1.03 } });
		// so slow that readings look back three times as far
		const slowStar = run({ virtualNeutral: { ...star, capacitor: star.capacitor * 3 } });
		expect(otherDivider.virtualNeutral).toStrictEqual(plain.virtualNeutral);
		expect(otherStar.halfBus).toStrictEqual(plain.halfBus);
		expect(slowStar.halfBus).toStrictEqual(plain.halfBus);
		expect(otherDivider.halfBus).not.toStrictEqual(plain.halfBus);
		expect(otherStar.virtualNeutral).not.toStrictEqual(plain.virtualNeutral);
	}
});
