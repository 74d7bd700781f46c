import { describe, expect, it } from 'vitest';
import { BackEmf } from '../../shared/drive/back-emf.ts';
import { Circuit } from '../../shared/drive/circuit.ts';
import { highPhase, lowPhase, openPhase, risingCrossing } from '../../shared/drive/commutation-table.ts';
import { highDiode, highSwitch, lowSwitch, open } from '../../shared/drive/conduction-mode.ts';
import type { Drive } from '../../shared/drive/drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { PowerStage } from '../../shared/drive/power-stage.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { driveWith, mean, observeRun } from './drives.ts';

// Textbook results for the six-step drive. All figures were recomputed from the
// phase equations with an independent numeric library; the commutation formulas
// are those of Carlson, Lajoie-Mazenc and Fagundes, IEEE Trans. Ind. Appl.
// 28(3):632–638, 1992 (attribution from memory).

/** A drive whose EMFs stand all but still: 1 rev/min, one pole pair, K chosen for `emf` volts. */
const still = (emf: number, parameters: Record<string, number | string> = {}): Drive => {
	const perRevPerMinute = (2 * Math.PI) / 60;
	return driveWith({
		'motor.polePairs': 1,
		'operation.speed': 1,
		'motor.emfConstant': emf / perRevPerMinute,
		'supply.rippleAmplitude': 0,
		'inverter.switchResistance': 0,
		...parameters,
	});
};

const loaded = (drive: Drive): Circuit => {
	const circuit = new Circuit();
	circuit.load(drive);
	return circuit;
};

/** Unit back-EMFs of a balanced drive at an electrical angle, by the kernel's own pieces. */
function unitEmf(drive: Drive, degrees: number): number[] {
	const circuit = loaded(drive);
	if (drive.motor.sinusoidal) {
		const t = (degrees * Math.PI) / 180;
		return [0, 1, 2].map((k) => {
			const peak = circuit.emfPeak[k] as number;
			return ((circuit.emfRe[k] as number) * Math.sin(t) + (circuit.emfIm[k] as number) * Math.cos(t)) / peak;
		});
	}
	const emf = new BackEmf();
	emf.start(circuit, drive);
	const time = (((degrees + 330) % 360) * Math.PI) / 180 / circuit.omega;
	while (emf.nextCorner <= time) emf.pass(emf.nextCorner);
	return [0, 1, 2].map((k) => {
		const e = (emf.level[k] as number) + (emf.slope[k] as number) * (time - (emf.zero[k] as number));
		return e / (circuit.emfPeak[k] as number);
	});
}

describe('time and angle', () => {
	it.each([
		[3000, 4, 200, 833.333e-6, 416.667e-6],
		[10000, 7, 1166.667, 142.857e-6, 71.429e-6],
	])(
		'%d rev/min with %d pole pairs: f_e = pn/60, a sector is 10/(pn), 30° half of it',
		(speed, pairs, frequency, sector, half) => {
			const circuit = loaded(driveWith({ 'operation.speed': speed, 'motor.polePairs': pairs }));
			expect(circuit.omega / (2 * Math.PI)).toBeCloseTo(frequency, 3);
			expect(Math.PI / 3 / circuit.omega).toBeCloseTo(sector, 9);
			expect(Math.PI / 6 / circuit.omega).toBeCloseTo(half, 9);
		},
	);
});

describe('six-step table', () => {
	const drive = driveWith();
	it.each([0, 1, 2, 3, 4, 5])(
		'kind %d conducts two flat EMFs over its window and leaves the crossing phase open',
		(kind) => {
			const high = highPhase[kind] as number;
			const low = lowPhase[kind] as number;
			const sensed = openPhase[kind] as number;
			for (const within of [0.001, 15, 30, 45, 59.999]) {
				const e = unitEmf(drive, 30 + 60 * kind + within);
				expect(e[high]).toBeCloseTo(1, 9);
				expect(e[low]).toBeCloseTo(-1, 9);
				const way = risingCrossing[kind] ? 1 : -1;
				expect(e[sensed]).toBeCloseTo((way * (within - 30)) / 30, 9);
			}
		},
	);
});

describe('neutral of the star winding', () => {
	const at45 = (parameters: Record<string, string>) => {
		const drive = driveWith({
			'supply.rippleAmplitude': 0,
			'operation.speed': 6 / 0.03 / ((2 * Math.PI) / 60),
			...parameters,
		});
		const circuit = loaded(drive);
		const mode = circuit.mode(highSwitch, lowSwitch, open);
		const e = unitEmf(drive, 45).map((x) => 6 * x);
		const neutral =
			mode.neutral + mode.neutralEmfA * (e[0] ?? 0) + mode.neutralEmfB * (e[1] ?? 0) + mode.neutralEmfC * (e[2] ?? 0);
		return { neutral, terminal: neutral + (e[2] ?? 0), e };
	};

	it('v_n = V/2 − (e_x + e_y)/2, so the open terminal is at V/2 + e_z: 3.0 V at 45° with a trapezoid of 6 V', () => {
		const { terminal, e, neutral } = at45({});
		expect(neutral).toBeCloseTo(12 - ((e[0] ?? 0) + (e[1] ?? 0)) / 2, 12);
		expect(terminal - 12).toBeCloseTo(3, 9);
	});

	it('a balanced sine gives 1.5·e_z: 2.329371 V at 45°', () => {
		expect(at45({ 'motor.shape': 'sinusoidal' }).terminal - 12).toBeCloseTo(2.329371, 6);
	});

	it('a balanced resistor star sees (v_z − V/2)/3, so the terminal stands off it by (2/3)(v_z − V/2): 2.0 V', () => {
		const { terminal } = at45({});
		expect(terminal - (24 + 0 + terminal) / 3).toBeCloseTo(2, 9);
	});
});

describe('nothing conducting', () => {
	const off = (emfs: readonly [number, number, number], parameters = {}) => {
		// `both` with duty 0: all six switches stay off
		const peak = Math.max(...emfs.map(Math.abs));
		const drive = still(peak, { 'inverter.chopping': 'both', 'motor.shape': 'sinusoidal', ...parameters });
		const circuit = loaded(drive);
		// fixed EMFs: phasors that give them at θ = 30°, where a run begins
		for (let k = 0; k < 3; k++) {
			circuit.emfRe[k] = 2 * (emfs[k] as number); // sin 30° = ½
			circuit.emfIm[k] = 0;
		}
		const stage = new PowerStage();
		stage.start(circuit, drive, 0, 0);
		return { stage, circuit };
	};

	it('stays so while the largest and smallest EMF differ by at most V + 2V_F, with v_n = V/2 − mean(e)', () => {
		const { stage } = off([12, -13, 3]);
		expect(stage.mode.conducting).toBe(0);
		const { mode } = stage;
		const neutral = mode.neutral + mode.neutralEmfA * 12 + mode.neutralEmfB * -13 + mode.neutralEmfC * 3;
		expect(neutral).toBeCloseTo(12 - 2 / 3, 12);
	});

	it('ends when they differ by more: 13 and −13 V on 24 V + 1.4 V, high diode at the largest, low diode at the smallest', () => {
		const { stage } = off([13, 1, -13]);
		expect(stage.mode.ties).toEqual([highDiode, open, 4]);
		stage.trace(1e-6);
		const [a, , c] = stage.currentsAt(1e-7);
		expect(a).toBeLessThan(0);
		expect(c).toBeGreaterThan(0);
	});

	it('draws in the third phase as well where it would leave the rails: 30, 29 and −30 V', () => {
		const { stage } = off([30, 29.9, -30]);
		expect(stage.mode.conducting).toBe(3);
	});
});

describe('winding currents', () => {
	it('RL decay against 12 V from 10 A through 0.5 Ω, 1 mH ends after τ·ln(1 + I₀R/V) = 696.613389 µs', () => {
		// both diodes in the path: V + 2V_F = 12
		const drive = still(1e-9, {
			'inverter.chopping': 'both',
			'inverter.diodeDrop': 0.5,
			'supply.voltage': 11,
			'motor.phaseResistance': 0.25,
			'motor.phaseInductance': 0.5e-3,
		});
		const stage = new PowerStage();
		stage.start(loaded(drive), drive, 0, 0);
		stage.iA = 10;
		stage.iB = -10;
		for (let sector = 0; sector < 6; sector++) stage.commutate();
		let ended = 0;
		while (ended === 0 && stage.time < 2e-3) {
			stage.trace(2e-3);
			stage.commit();
			if (stage.boundary === 'event') ended = stage.time;
		}
		expect(ended * 1e6).toBeCloseTo(696.613389, 4);
	});

	it.each([
		[3, 500, 357.142857],
		[6, 416.666667, 416.666667],
		[9, 357.142857, 500],
	])(
		'commutation at constant E = %d V, R → 0: freewheel t_f = 3LI/(V + 2E) = %f µs, rise t_r = 3LI/2(V − E) = %f µs',
		(emf, fall, rise) => {
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
			// slopes: outgoing (V + 2E)/3L, incoming 2(V − E)/3L, third (V − 4E)/3L in magnitude
			stage.trace(began + 1e-3);
			const early = stage.currentsAt(1e-6);
			expect((early[1] + current) / 1e-6).toBeCloseTo((voltage + 2 * emf) / (3 * inductance), -1);
			expect(-early[2] / 1e-6).toBeCloseTo((2 * (voltage - emf)) / (3 * inductance), -1);
			expect((early[0] - current) / 1e-6).toBeCloseTo((voltage - 4 * emf) / (3 * inductance), -1);
			let ended = 0;
			let risen = 0;
			while (stage.time < began + 0.9e-3 && (ended === 0 || risen === 0)) {
				const before = -stage.iC;
				stage.trace(began + 0.9e-3);
				if (ended === 0 && stage.boundary === 'event') ended = stage.time + stage.length - began;
				const after = -stage.currentsAt(stage.length)[2];
				// until the freewheel ends the rise is straight; beyond it, only its slope at the start is compared
				if (risen === 0 && before < current && after >= current) {
					risen = stage.time - began + (stage.length * (current - before)) / (after - before);
				}
				stage.commit();
			}
			expect(Math.abs(ended * 1e6 - fall)).toBeLessThan(0.05);
			if (rise <= fall) expect(risen * 1e6).toBeCloseTo(rise, 1);
		},
	);

	it('a diode current ends within 1 ns of the closed form', () => {
		const drive = still(1e-9, {
			'inverter.chopping': 'both',
			'supply.voltage': 10.6,
			'motor.phaseResistance': 0.25,
			'motor.phaseInductance': 0.5e-3,
		});
		const stage = new PowerStage();
		stage.start(loaded(drive), drive, 0, 0);
		stage.iA = 1;
		stage.iB = -1;
		for (let sector = 0; sector < 6; sector++) stage.commutate();
		do {
			stage.trace(1e-3);
			stage.commit();
		} while (stage.boundary !== 'event');
		const exact = 2e-3 * Math.log(1 + (1 * 0.5) / 12);
		expect(Math.abs(stage.time - exact)).toBeLessThan(1e-12);
	});
});

describe('sensing networks', () => {
	it('RC lag of a sine is atan(ωRC): 1 kHz, 10 kΩ, 1 nF gives 3.595274° and a gain of 0.9980319', () => {
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
		const peak = circuit.emfPeak[0] as number;
		// balanced sines: v_n is constant, so the terminal's sine is e_a itself
		expect(Math.hypot(node.emfRe, node.emfIm) / peak / 0.5).toBeCloseTo(0.9980319, 7);
		expect((-Math.atan2(node.emfIm, node.emfRe) * 180) / Math.PI).toBeCloseTo(3.595274, 6);
	});

	/** Mean crossing error of the half-bus choice at full duty, read every 31 ns: fine enough to see the closed forms. */
	const shiftOf = (parameters: Record<string, number | string>, deviations = {}) => {
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
	const sampling = (0.5 / 64 / 500e3) * 200 * 360;

	it('a ramp through RC is late by RC exactly: 20 µs at 200 Hz is 1.44°', () => {
		const resistance = (22e3 * 4.7e3) / 26.7e3;
		const still = mean(shiftOf({}));
		const lagged = mean(shiftOf({ 'sensing.divider.capacitor': 20e-6 / resistance }));
		expect(Math.abs(lagged - still - 20e-6 * 200 * 360)).toBeLessThan(2 * sampling + 2e-3);
	});

	it('an offset δ at the comparator shifts a trapezoid’s crossing by 30°·δ/E', () => {
		const gain = 4.7 / 26.7;
		const emf = (0.03 * 3000 * 2 * Math.PI) / 60;
		const none = shiftOf({});
		const some = shiftOf({}, { 'sensing.comparator.offset': [10e-3, 10e-3, 10e-3] });
		const expected = (30 * 10e-3) / gain / emf;
		for (let n = 0; n < 12; n++) {
			// falling crossings come later, rising ones earlier
			const way = risingCrossing[n % 6] ? -1 : 1;
			expect(Math.abs((some[n] as number) - (none[n] as number) - way * expected)).toBeLessThan(2 * sampling + 1e-4);
		}
	});

	it('of unequal phase networks only the slow phase’s crossings shift, by its own lag', () => {
		const resistance = (22e3 * 4.7e3) / 26.7e3;
		const base = { 'sensing.divider.capacitor': 5e-6 / resistance };
		const equal = shiftOf(base);
		const slow = shiftOf(base, { 'sensing.divider.capacitor': [0, 1, 0] }); // phase b: 10 µs
		for (let n = 0; n < 12; n++) {
			const lag = openPhase[n % 6] === 1 ? 5e-6 * 200 * 360 : 0;
			expect(Math.abs((slow[n] as number) - (equal[n] as number) - lag)).toBeLessThan(2 * sampling + 2e-3);
		}
	});
});

describe('torque', () => {
	/** Mean over a sector commutated φ degrees late, of (e_high − e_low)/2E with constant current. */
	const meanTorque = (drive: Drive, late: number): { mean: number; min: number; max: number } => {
		let sum = 0;
		let least = Infinity;
		let most = -Infinity;
		const points = 6000;
		for (let j = 0; j < points; j++) {
			const e = unitEmf(drive, 30 + late + (60 * (j + 0.5)) / points);
			const torque = (e[0] as number) - (e[1] as number);
			sum += torque;
			least = Math.min(least, torque);
			most = Math.max(most, torque);
		}
		return { mean: sum / points, min: least, max: most };
	};

	it.each([
		[1, 0.999861],
		[5, 0.996528],
		[10, 0.986111],
		[15, 0.96875],
		[30, 0.875],
	])('a 120° trapezoid commutated %d° late keeps 1 − φ²/7200 = %f of its torque', (late, share) => {
		expect(meanTorque(driveWith(), late).mean / 2).toBeCloseTo(share, 5);
		expect(meanTorque(driveWith(), -late).mean / 2).toBeCloseTo(share, 5);
	});

	it('sine EMF in six steps: mean 3√3/π = 1.653987, least 1.5, greatest √3; late by φ it keeps cos φ', () => {
		const drive = driveWith({ 'motor.shape': 'sinusoidal' });
		const ideal = meanTorque(drive, 0);
		expect(ideal.mean).toBeCloseTo(1.653987, 5);
		expect(ideal.min).toBeCloseTo(1.5, 3);
		expect(ideal.max).toBeCloseTo(Math.sqrt(3), 5);
		for (const [late, share] of [
			[5, 0.996195],
			[10, 0.984808],
			[15, 0.965926],
			[30, 0.866025],
		] as const) {
			expect(meanTorque(drive, late).mean / ideal.mean).toBeCloseTo(share, 5);
		}
	});

	it('Fourier coefficients of the trapezoid: b1 1.215854, b3 0.270190, b5 0.048634, b7 −0.024813', () => {
		const drive = driveWith();
		const points = 7200;
		const wave = Array.from({ length: points }, (_, j) => unitEmf(drive, 30 + (360 * (j + 0.5)) / points)[0] as number);
		const coefficient = (n: number) =>
			(2 / points) *
			wave.reduce((sum, e, j) => sum + e * Math.sin((n * (30 + (360 * (j + 0.5)) / points) * Math.PI) / 180), 0);
		expect(coefficient(1)).toBeCloseTo(1.215854204, 5);
		expect(coefficient(3)).toBeCloseTo(0.270189823, 5);
		expect(coefficient(5)).toBeCloseTo(0.048634168, 5);
		expect(coefficient(7)).toBeCloseTo(-0.024813351, 5);
		expect(Math.sqrt(mean(wave.map((e) => e * e)))).toBeCloseTo(0.881917104, 5);
		expect(mean(wave.map(Math.abs))).toBeCloseTo(0.8333333, 5);
	});
});

describe('freewheeling', () => {
	it('after each commutation the outgoing phase is pinned to a rail until its current is gone', () => {
		const drive = driveWith();
		let pinned = 0;
		let sectors = 0;
		let fresh = false;
		observeRun(drive, (stage, choice) => {
			if (choice !== 'warmup') return;
			// a corner may coincide with the commutation: the first stretch of some length counts
			if (stage.length > 1e-15 && fresh) {
				sectors++;
				const outgoing = openPhase[stage.kind] as number;
				const current = [stage.iA, stage.iB, stage.iC][outgoing] as number;
				const tie = stage.mode.ties[outgoing] as number;
				if (Math.abs(current) > 1e-3 && tie >= highDiode) pinned++;
			}
			if (stage.boundary === 'limit') fresh = true;
			else if (stage.length > 1e-15) fresh = false;
		});
		expect(sectors).toBe(11);
		expect(pinned).toBe(11);
	});
});
