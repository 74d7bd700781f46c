import { describe, expect, it } from 'vitest';
import { highDiode, highSwitch, lowDiode, lowSwitch, open } from '../../shared/drive/conduction-mode.ts';
import type { Drive } from '../../shared/drive/drive.ts';
import type { PowerStage } from '../../shared/drive/power-stage/power-stage.ts';
import type { Values } from '../../shared/scenario/scenario.ts';
import { driveWith, observeRun } from './drives.ts';

const unequal = {
	'motor.phaseResistance': [0.05, -0.08, 0.02],
	'motor.phaseInductance': [-0.07, 0.09, 0.03],
	'motor.emfConstant': [0.02, -0.01, 0.03],
	'motor.placement': [0.8, -0.6, 0.3],
	pwmPhase: 0.37,
	ripplePhase: 0.61,
};

const drives: readonly (readonly [string, Values])[] = [
	['high-side chopping', { 'inverter.chopping': 'high-side' }],
	['low-side chopping with a shunt', { 'inverter.chopping': 'low-side', 'inverter.shuntResistance': 0.05 }],
	['complementary chopping with dead time', { 'inverter.chopping': 'complementary', 'inverter.deadTime': 1e-6 }],
	['both switches chopped', { 'inverter.chopping': 'both', 'inverter.shuntResistance': 0.02 }],
	[
		'both switches chopped at light load',
		{ 'inverter.chopping': 'both', 'operation.torque': 0.004, 'operation.speed': 900 },
	],
	['high-side chopping at light load', { 'operation.torque': 0.002, 'operation.speed': 700 }],
	['a sinusoidal motor', { 'motor.shape': 'sinusoidal', 'inverter.shuntResistance': 0.05 }],
	['a motor starved of voltage (duty 1)', { 'operation.torque': 0.6 }],
];

/** 8-point Gauss–Legendre nodes and weights on [0, 1]. */
const nodes = [
	0.0198550718, 0.1016667613, 0.237233795, 0.4082826788, 0.5917173212, 0.762766205, 0.8983332387, 0.9801449282,
];
const weights = [
	0.0506142681, 0.1111905172, 0.1568533229, 0.1813418917, 0.1813418917, 0.1568533229, 0.1111905172, 0.0506142681,
];

/** Back-EMFs (V) and the bus (V) `s` seconds into the segment in hand, from the model's definition. */
function sources(drive: Drive, stage: PowerStage, s: number): { emf: number[]; bus: number } {
	const omegaM = (drive.operation.speed * 2 * Math.PI) / 60;
	const t = stage.segment.start + s;
	const degrees = 30 + ((omegaM * drive.motor.polePairs * 180) / Math.PI) * t;
	const emf = [0, 1, 2].map((k) => {
		const angle = degrees - 120 * k - (drive.motor.placement[k] as number);
		return (drive.motor.emfConstant[k] as number) * omegaM * shape(drive, angle);
	});
	const { supply } = drive;
	const bus =
		supply.voltage + supply.rippleAmplitude * Math.sin(2 * Math.PI * (supply.rippleFrequency * t + supply.ripplePhase));
	return { emf, bus };
}

/** Unit back-EMF at an angle in degrees, rising zero at 0. */
function shape(drive: Drive, degrees: number): number {
	if (drive.motor.sinusoidal) return Math.sin((degrees * Math.PI) / 180);
	const half = 90 - drive.motor.flatTop / 2;
	const x = ((((degrees + 90) % 360) + 360) % 360) - 90; // −90…270
	const folded = x <= 90 ? x : 180 - x;
	return Math.max(-1, Math.min(1, folded / half));
}

describe.each(drives)('with %s', (_name, parameters) => {
	const drive = driveWith({ 'trial.measured': 6, 'trial.settle': 0, ...parameters }, unequal);

	it('currents sum to zero, diode currents never reverse, open terminals stay between the rails', () => {
		let segments = 0;
		const worst = { sum: 0, reversed: 0, openCurrent: 0, outside: 0 };
		observeRun(drive, (stage) => {
			if (stage.length === 0) return;
			segments++;
			for (const part of [0, 0.25, 0.5, 0.75, 1]) {
				const s = part * stage.length;
				const i = stage.currentsAt(s);
				worst.sum = Math.max(worst.sum, Math.abs(i[0] + i[1] + i[2]));
				for (let k = 0; k < 3; k++) {
					const tie = stage.mode.ties[k];
					const current = i[k] as number;
					if (tie === lowDiode) worst.reversed = Math.max(worst.reversed, -current);
					if (tie === highDiode) worst.reversed = Math.max(worst.reversed, current);
					if (tie === open) worst.openCurrent = Math.max(worst.openCurrent, Math.abs(current));
				}
				if (stage.mode.conducting !== 2) continue;
				const { emf, bus } = sources(drive, stage, s);
				const v = terminals(drive, stage, i, emf, bus);
				const k = stage.mode.ties.indexOf(open);
				const low = drive.inverter.shuntResistance * busCurrent(stage, i);
				const { diodeDrop } = drive.inverter;
				worst.outside = Math.max(worst.outside, (v[k] as number) - bus - diodeDrop, low - diodeDrop - (v[k] as number));
			}
		});
		expect(segments).toBeGreaterThan(300);
		expect(worst.sum).toBeLessThan(1e-12); // A
		expect(worst.reversed).toBeLessThan(2e-9); // A
		expect(worst.openCurrent).toBe(0);
		expect(worst.outside).toBeLessThan(1e-6); // V
	});

	it('energy in equals heat, mechanical work and stored energy to 10⁻⁶', () => {
		let input = 0;
		let heat = 0;
		let mechanical = 0;
		let counted = 0;
		let stored = 0;
		let last = 'warmup';
		observeRun(drive, (stage, choice) => {
			// warm-up and the first loop are one trajectory
			if (choice === 'virtualNeutral') return;
			last = choice;
			const h = stage.length;
			const before = stage.work;
			for (const [j, node] of nodes.entries()) {
				const s = node * h;
				const i = stage.currentsAt(s);
				const { emf, bus } = sources(drive, stage, s);
				const w = (weights[j] as number) * h;
				const total = busCurrent(stage, i);
				input += w * bus * total;
				heat += w * drive.inverter.shuntResistance * total * total;
				for (let k = 0; k < 3; k++) {
					const tie = stage.mode.ties[k];
					const current = i[k] as number;
					heat += w * (drive.motor.phaseResistance[k] as number) * current * current;
					if (tie === highSwitch || tie === lowSwitch) heat += w * drive.inverter.switchResistance * current * current;
					if (tie === highDiode || tie === lowDiode) heat += w * drive.inverter.diodeDrop * Math.abs(current);
					mechanical += w * (emf[k] as number) * current;
				}
			}
			const end = h > 0 ? stage.currentsAt(h) : [stage.iA, stage.iB, stage.iC];
			stored =
				0.5 *
				[0, 1, 2].reduce((sum, k) => sum + (drive.motor.phaseInductance[k] as number) * (end[k] as number) ** 2, 0);
			counted = before;
		});
		expect(last).toBe('halfBus');
		expect(Math.abs(input - heat - mechanical - stored) / input).toBeLessThan(1e-6);
		expect(counted).toBeGreaterThan(0);
	});

	it('the kernel’s work per sector equals an 8-point Gauss–Legendre integral of Σ e·i to 10⁻⁸', () => {
		let quadrature = 0;
		let worst = 0;
		let sectors = 0;
		let largest = 0;
		observeRun(drive, (stage) => {
			if (stage.work === 0) quadrature = 0;
			for (const [j, node] of nodes.entries()) {
				const s = node * stage.length;
				const i = stage.currentsAt(s);
				const { emf } = sources(drive, stage, s);
				quadrature +=
					(weights[j] as number) *
					stage.length *
					[0, 1, 2].reduce((sum, k) => sum + (emf[k] as number) * (i[k] as number), 0);
			}
			const original = stage.commit.bind(stage);
			// the work that this very segment adds is seen right after it is taken
			stage.commit = () => {
				original();
				stage.commit = original;
				if (stage.boundary !== 'limit') return;
				sectors++;
				largest = Math.max(largest, Math.abs(quadrature));
				worst = Math.max(worst, Math.abs(stage.work - quadrature));
			};
		});
		expect(sectors).toBeGreaterThan(20);
		expect(worst / largest).toBeLessThan(1e-8);
	});
});

/** Σ of the currents of the phases tied to the high rail, A. */
function busCurrent(stage: PowerStage, i: readonly number[]): number {
	return [0, 1, 2].reduce((sum, k) => {
		const tie = stage.mode.ties[k];
		return tie === highSwitch || tie === highDiode ? sum + (i[k] as number) : sum;
	}, 0);
}

/** Terminal voltages from the phase equations, independent of the kernel's own coefficients. */
function terminals(
	drive: Drive,
	stage: PowerStage,
	i: readonly number[],
	emf: readonly number[],
	bus: number,
): number[] {
	const { inverter, motor } = drive;
	const low = inverter.shuntResistance * busCurrent(stage, i);
	const v = [0, 1, 2].map((k) => {
		const tie = stage.mode.ties[k];
		if (tie === highSwitch) return bus - inverter.switchResistance * (i[k] as number);
		if (tie === lowSwitch) return low - inverter.switchResistance * (i[k] as number);
		return tie === highDiode ? bus + inverter.diodeDrop : low - inverter.diodeDrop;
	});
	let top = 0;
	let bottom = 0;
	for (let k = 0; k < 3; k++) {
		if (stage.mode.ties[k] === open) continue;
		const y = 1 / (motor.phaseInductance[k] as number);
		top += y * ((v[k] as number) - (motor.phaseResistance[k] as number) * (i[k] as number) - (emf[k] as number));
		bottom += y;
	}
	const neutral = top / bottom;
	return v.map((voltage, k) => (stage.mode.ties[k] === open ? (emf[k] as number) + neutral : voltage));
}
