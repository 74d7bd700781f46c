import { highSwitch, lowSwitch, open } from '../../shared/drive/conduction-mode.ts';
import type { Drive } from '../../shared/drive/drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { PowerStage } from '../../shared/drive/power-stage/power-stage.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { driveWith, mean } from '../drive/drives.ts';
import { loaded, still, unitEmf } from '../drive/still-drives.ts';
import { checksOf, type ModelCheck } from './model-check.ts';

// Textbook results for the six-step drive. All figures were recomputed from the
// phase equations with an independent numeric library; the commutation formulas
// are those of Carlson, Lajoie-Mazenc and Fagundes, IEEE Trans. Ind. Appl.
// 28(3):632–638, 1992 (attribution from memory).

const microseconds = 1e6;

const timeAndAngle: ModelCheck[] = (
	[
		[3000, 4, 200, 833.333333, 416.666667],
		[10000, 7, 1166.666667, 142.857143, 71.428571],
	] as const
).flatMap(([speed, pairs, frequency, sector, half]) => {
	const omega = () => loaded(driveWith({ 'operation.speed': speed, 'motor.polePairs': pairs })).omega;
	const of = `${speed} rev/min, ${pairs} pole pairs`;
	return [
		...checksOf({ kind: 'closed form', source: 'f = pn/60', unit: 'Hz' }, [
			[`${of}, electrical frequency`, frequency, 1e-6, () => omega() / (2 * Math.PI)],
		]),
		...checksOf({ kind: 'closed form', source: 'sector 10/(pn), 30° half of it', unit: 'µs' }, [
			[`${of}, a sector`, sector, 1e-6, () => (Math.PI / 3 / omega()) * microseconds],
			[`${of}, 30°`, half, 1e-6, () => (Math.PI / 6 / omega()) * microseconds],
		]),
	];
});

/** Open terminal at 45° with 24 V and EMFs of 6 V, over V/2. */
function openTerminal(parameters: Record<string, string>): number {
	const drive = driveWith({
		'supply.rippleAmplitude': 0,
		'operation.speed': 6 / 0.03 / ((2 * Math.PI) / 60),
		...parameters,
	});
	const mode = loaded(drive).mode(highSwitch, lowSwitch, open);
	const e = unitEmf(drive, 45).map((x) => 6 * x);
	const neutral =
		mode.neutral + mode.neutralEmfA * (e[0] ?? 0) + mode.neutralEmfB * (e[1] ?? 0) + mode.neutralEmfC * (e[2] ?? 0);
	return neutral + (e[2] ?? 0) - 12;
}

const neutral: ModelCheck[] = checksOf(
	{ kind: 'closed form', source: 'v_n = V/2 − (e_x + e_y)/2; recomputed', unit: 'V' },
	[
		['open terminal over V/2 at 45°, trapezoid of 6 V', 3, 1e-9, () => openTerminal({})],
		['the same, sine of 6 V: 1.5·e_z', 2.329371, 5e-7, () => openTerminal({ 'motor.shape': 'sinusoidal' })],
		[
			'open terminal over the resistor star, trapezoid: ⅔ of that',
			2,
			1e-9,
			() => {
				const terminal = 12 + openTerminal({});
				return terminal - (24 + terminal) / 3;
			},
		],
	],
);

/** Seconds from which both diodes carry `current` until it is gone, V + 2V_F in all against it. */
function decayTime(current: number, parameters: Record<string, number | string>): number {
	const drive = still(1e-9, { 'inverter.chopping': 'both', ...parameters });
	const stage = new PowerStage();
	stage.start(loaded(drive), drive, 0, 0);
	stage.iA = current;
	stage.iB = -current;
	for (let sector = 0; sector < 6; sector++) stage.commutate();
	while (stage.time < 2e-3) {
		stage.trace(2e-3);
		stage.commit();
		if (stage.boundary === 'event') return stage.time;
	}
	return Number.NaN;
}

const decay: ModelCheck[] = checksOf({ kind: 'closed form', source: 'τ·ln(1 + I₀R/V); recomputed', unit: 'µs' }, [
	[
		'RL decay of 10 A against 12 V, 0.5 Ω and 1 mH',
		696.613389,
		5e-6,
		() =>
			decayTime(10, {
				'inverter.diodeDrop': 0.5,
				'supply.voltage': 11,
				'motor.phaseResistance': 0.25,
				'motor.phaseInductance': 0.5e-3,
			}) * microseconds,
	],
	[
		'RL decay of 1 A, the same',
		2000 * Math.log(1 + 0.5 / 12),
		1e-6,
		() =>
			decayTime(1, {
				'supply.voltage': 10.6,
				'motor.phaseResistance': 0.25,
				'motor.phaseInductance': 0.5e-3,
			}) * microseconds,
	],
]);

/** A commutation of 5 A at constant EMF with R → 0, 24 V and 1 mH; slopes in A/s, times in s. */
function commutation(emf: number) {
	const [inductance, current, voltage] = [1e-3, 5, 24];
	const drive = still(emf, {
		'motor.phaseInductance': inductance,
		'motor.phaseResistance': 1e-4,
		'inverter.diodeDrop': 1e-9,
		'supply.voltage': voltage,
		'inverter.pwmFrequency': 1e3,
	});
	const stage = new PowerStage();
	stage.start(loaded(drive), drive, 1, 0);
	// on to θ = 90° (10 s at 6°/s), where the sector a+b− ends, then 5 A in a and −5 A in b
	while (stage.time < 10) {
		stage.trace(10);
		stage.commit();
	}
	stage.iA = current;
	stage.iB = -current;
	stage.iC = 0;
	stage.commutate();
	const began = stage.time;
	stage.trace(began + 1e-3);
	const [a, b, c] = stage.currentsAt(1e-6);
	const slopes = { outgoing: (b + current) / 1e-6, incoming: -c / 1e-6, third: (a - current) / 1e-6 };
	let freewheel = Number.NaN;
	let rise = Number.NaN;
	while (stage.time < began + 0.9e-3 && (Number.isNaN(freewheel) || Number.isNaN(rise))) {
		const before = -stage.iC;
		stage.trace(began + 0.9e-3);
		if (Number.isNaN(freewheel) && stage.boundary === 'event') freewheel = stage.time + stage.length - began;
		const after = -stage.currentsAt(stage.length)[2];
		if (Number.isNaN(rise) && before < current && after >= current) {
			rise = stage.time - began + (stage.length * (current - before)) / (after - before);
		}
		stage.commit();
	}
	return { ...slopes, freewheel: freewheel * microseconds, rise: rise * microseconds };
}

const commutations: ModelCheck[] = (
	[
		[3, 500, 357.142857],
		[6, 416.666667, 416.666667],
		// beyond the freewheel's end the rise is not straight: only slopes and freewheel are compared
		[9, 357.142857, null],
	] as const
).flatMap(([emf, fall, rise]) => {
	const of = `commutation of 5 A at ${emf} V`;
	const source = 'Carlson et al. 1992, R → 0; recomputed';
	return [
		...checksOf({ kind: 'closed form', source, unit: 'A/s' }, [
			[`${of}, outgoing slope (V + 2E)/3L`, (24 + 2 * emf) / 3e-3, 5, () => commutation(emf).outgoing],
			[`${of}, incoming slope 2(V − E)/3L`, (2 * (24 - emf)) / 3e-3, 5, () => commutation(emf).incoming],
			[`${of}, third slope (V − 4E)/3L`, (24 - 4 * emf) / 3e-3, 5, () => commutation(emf).third],
		]),
		...checksOf({ kind: 'closed form', source, unit: 'µs' }, [
			[`${of}, freewheel 3LI/(V + 2E)`, fall, 0.05, () => commutation(emf).freewheel],
		]),
		...(rise === null
			? []
			: checksOf({ kind: 'closed form', source, unit: 'µs' }, [
					[`${of}, rise 3LI/2(V − E)`, rise, 0.05, () => commutation(emf).rise],
				])),
	];
});

/** Gain and lag in degrees of a sine of 1 kHz behind a divider of 10 kΩ and 1 nF. */
function lagOfSine() {
	// nothing conducting: each terminal carries its own sine; divider 20 k / 20 k is 10 kΩ behind a gain of ½
	const drive = driveWith({
		'motor.shape': 'sinusoidal',
		'motor.polePairs': 1,
		'operation.speed': 60e3,
		'supply.rippleAmplitude': 0,
		'sensing.divider.top': 20e3,
		'sensing.divider.bottom': 20e3,
		'sensing.divider.capacitor': 1e-9,
	});
	const circuit = loaded(drive);
	const node = circuit.mode(open, open, open).node(circuit, 0);
	// balanced sines: v_n is constant, so the terminal's sine is e_a itself
	return {
		gain: Math.hypot(node.emfRe, node.emfIm) / (circuit.emfPeak[0] as number) / 0.5,
		lag: (-Math.atan2(node.emfIm, node.emfRe) * 180) / Math.PI,
	};
}

/** Crossing errors of the half-bus choice at full duty, read every 31 ns: fine enough to see the closed forms. */
export const finelyRead = (parameters: Record<string, number | string>, deviations = {}): ArrayLike<number> => {
	const drive = driveWith(
		{
			'supply.rippleAmplitude': 0,
			'operation.torque': 10, // never reached: the duty stays 1
			'inverter.pwmFrequency': 500e3,
			'detection.window': 'whole',
			'detection.samples': 64,
			'detection.position': 0.5,
			'detection.majorityWindow': 1,
			'detection.majorityVotes': 1,
			'detection.blanking': 16,
			'sensing.comparator.latency': 0,
			'sensing.halfBus.top': 48.7e3,
			// exactly half the phase divider's gain
			'sensing.halfBus.bottom': (48.7e3 * 4.7) / (2 * 26.7 - 4.7),
			'sensing.divider.capacitor': 1e-13,
			'trial.measured': 12,
			...parameters,
		},
		deviations,
	);
	return simulatePair(drive, silence).halfBus.crossings;
};
/** 31 ns of sampling at 200 Hz, degrees. */
export const readingStep = (0.5 / 64 / 500e3) * 200 * 360;

const networks: ModelCheck[] = [
	...checksOf({ kind: 'closed form', source: 'atan(ωRC); recomputed', unit: '°' }, [
		['lag of a 1 kHz sine behind 10 kΩ and 1 nF', 3.595274, 5e-7, () => lagOfSine().lag],
	]),
	...checksOf({ kind: 'closed form', source: '1/√(1 + (ωRC)²); recomputed' }, [
		['gain of the same', 0.9980319, 5e-8, () => lagOfSine().gain],
	]),
	...checksOf({ kind: 'closed form', source: 'a ramp is late by RC', unit: '°' }, [
		[
			'lag of a trapezoid’s crossing, RC = 20 µs at 200 Hz',
			1.44,
			2 * readingStep + 2e-3,
			() => {
				const resistance = (22e3 * 4.7e3) / 26.7e3;
				return mean(finelyRead({ 'sensing.divider.capacitor': 20e-6 / resistance })) - mean(finelyRead({}));
			},
		],
	]),
	...checksOf({ kind: 'closed form', source: '30°·δ/E behind the divider', unit: '°' }, [
		[
			'a trapezoid’s falling crossing, 10 mV of comparator offset',
			(30 * 10e-3) / (4.7 / 26.7) / ((0.03 * 3000 * 2 * Math.PI) / 60),
			2 * readingStep + 1e-4,
			() => {
				const some = finelyRead({}, { 'sensing.comparator.offset': [10e-3, 10e-3, 10e-3] });
				return (some[0] as number) - (finelyRead({})[0] as number);
			},
		],
	]),
];

/** Mean, least and greatest over a sector commutated φ degrees late, of (e_high − e_low)/E with constant current. */
function sectorTorque(drive: Drive, late: number) {
	const points = 6000;
	const torques = Array.from({ length: points }, (_, j) => {
		const e = unitEmf(drive, 30 + late + (60 * (j + 0.5)) / points);
		return (e[0] as number) - (e[1] as number);
	});
	return { mean: mean(torques), min: Math.min(...torques), max: Math.max(...torques) };
}
const sine = () => driveWith({ 'motor.shape': 'sinusoidal' });

const torque: ModelCheck[] = [
	...checksOf(
		{ kind: 'closed form', source: '1 − φ²/7200; recomputed' },
		(
			[
				[1, 0.999861],
				[5, 0.996528],
				[10, 0.986111],
				[15, 0.96875],
				[30, 0.875],
			] as const
		).flatMap(([late, share]) => [
			[
				`torque kept by a trapezoid ${late}° late`,
				share,
				5e-6,
				() => sectorTorque(driveWith(), late).mean / 2,
			] as const,
			[
				`torque kept by a trapezoid ${late}° early`,
				share,
				5e-6,
				() => sectorTorque(driveWith(), -late).mean / 2,
			] as const,
		]),
	),
	...checksOf({ kind: 'closed form', source: 'six-step with sine EMF; recomputed' }, [
		['mean torque over E·I/ω: 3√3/π', 1.653987, 5e-6, () => sectorTorque(sine(), 0).mean],
		['least torque', 1.5, 5e-4, () => sectorTorque(sine(), 0).min],
		['greatest torque: √3', 1.7320508, 5e-6, () => sectorTorque(sine(), 0).max],
	]),
	...checksOf(
		{ kind: 'closed form', source: 'cos φ' },
		(
			[
				[5, 0.996195],
				[10, 0.984808],
				[15, 0.965926],
				[30, 0.866025],
			] as const
		).map(([late, share]) => [
			`torque kept by a sine ${late}° late`,
			share,
			5e-6,
			() => sectorTorque(sine(), late).mean / sectorTorque(sine(), 0).mean,
		]),
	),
];

/** One turn of the trapezoid, by half-degree twentieths. */
function turn(): { readonly degrees: number; readonly e: number }[] {
	const drive = driveWith();
	const points = 7200;
	return Array.from({ length: points }, (_, j) => {
		const degrees = 30 + (360 * (j + 0.5)) / points;
		return { degrees, e: unitEmf(drive, degrees)[0] as number };
	});
}
const coefficient = (n: number): number =>
	2 * mean(turn().map(({ degrees, e }) => e * Math.sin((n * degrees * Math.PI) / 180)));

const waveform: ModelCheck[] = checksOf(
	{ kind: 'closed form', source: 'Fourier series of the trapezoid; recomputed' },
	[
		['trapezoid, b1', 1.215854204, 5e-6, () => coefficient(1)],
		['trapezoid, b3', 0.270189823, 5e-6, () => coefficient(3)],
		['trapezoid, b5', 0.048634168, 5e-6, () => coefficient(5)],
		['trapezoid, b7', -0.024813351, 5e-6, () => coefficient(7)],
		['trapezoid, rms', 0.881917104, 5e-6, () => Math.sqrt(mean(turn().map(({ e }) => e * e)))],
		['trapezoid, mean size', 0.8333333, 5e-6, () => mean(turn().map(({ e }) => Math.abs(e)))],
	],
);

export const driveChecks: readonly ModelCheck[] = [
	...timeAndAngle,
	...neutral,
	...decay,
	...commutations,
	...networks,
	...torque,
	...waveform,
];
