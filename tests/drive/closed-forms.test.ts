import { describe, expect, it } from 'vitest';
import { highPhase, lowPhase, openPhase, risingCrossing } from '../../shared/drive/commutation-table.ts';
import { highDiode, highSwitch, lowSwitch, open } from '../../shared/drive/conduction-mode.ts';
import { PowerStage } from '../../shared/drive/power-stage/power-stage.ts';
import { finelyRead, readingStep } from '../model-checks/drive-checks.ts';
import { driveWith, observeRun } from './drives.ts';
import { loaded, still, unitEmf } from './still-drives.ts';

// What must hold of the six-step drive whatever the figures; those that are known
// from textbooks are in tests/model-checks/drive-checks.ts.

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
	it('v_n = V/2 − (e_x + e_y)/2 at 45°', () => {
		const drive = driveWith({ 'supply.rippleAmplitude': 0, 'operation.speed': 6 / 0.03 / ((2 * Math.PI) / 60) });
		const mode = loaded(drive).mode(highSwitch, lowSwitch, open);
		const [a = 0, b = 0, c = 0] = unitEmf(drive, 45).map((x) => 6 * x);
		const neutral = mode.neutral + mode.neutralEmfA * a + mode.neutralEmfB * b + mode.neutralEmfC * c;
		expect(neutral).toBeCloseTo(12 - (a + b) / 2, 12);
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

describe('sensing networks', () => {
	it('of unequal phase networks only the slow phase’s crossings shift, by its own lag', () => {
		const resistance = (22e3 * 4.7e3) / 26.7e3;
		const base = { 'sensing.divider.capacitor': 5e-6 / resistance };
		const equal = finelyRead(base);
		const slow = finelyRead(base, { 'sensing.divider.capacitor': [0, 1, 0] }); // phase b: 10 µs
		for (let n = 0; n < 12; n++) {
			const lag = openPhase[n % 6] === 1 ? 5e-6 * 200 * 360 : 0;
			expect(Math.abs((slow[n] as number) - (equal[n] as number) - lag)).toBeLessThan(2 * readingStep + 2e-3);
		}
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
