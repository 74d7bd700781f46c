import { expect, test } from 'vitest';
import { Ringing } from '../../shared/drive/ringing.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { buildRequest } from '../../shared/one-drive/build-request.ts';
import { SegmentState } from '../../shared/one-drive/segment-state.ts';
import { SenseNodes } from '../../shared/one-drive/sense-nodes.ts';
import { demoPlan } from './demo-plan.ts';

const quiet = { 'noise.ringAmplitude': 0, 'inverter.shuntResistance': 0.02 };

test.each(['fan-24v.json', 'pump-12v.json', 'spindle-48v.json'])(
	'%s: terminal voltages obey v_k − R_k i_k − L_k di_k/dt − e_k = v_n for all three phases, to 2 mV',
	(file) => {
		const { drive, noise } = buildRequest({ plan: demoPlan(file, quiet), unit: 4, point: 0, start: 1 });
		const state = new SegmentState();
		const ringing = new Ringing();
		ringing.load(drive, noise);
		let checked = 0;
		simulatePair(drive, noise, {
			observe(stage) {
				const { length } = stage;
				if (length < 4e-6 || checked > 4000) return;
				const middle = length / 2;
				const step = 1e-7;
				state.read(stage, ringing, middle - step);
				const before = [...state.current];
				state.read(stage, ringing, middle + step);
				const after = [...state.current];
				state.read(stage, ringing, middle);
				const neutrals = [0, 1, 2].map((k) => {
					const slope = ((after[k] as number) - (before[k] as number)) / (2 * step);
					const resistance = stage.circuit.resistance[k] as number;
					const inductance = stage.circuit.inductance[k] as number;
					const drop = resistance * (state.current[k] as number) + inductance * slope;
					return (state.terminal[k] as number) - drop - (state.emf[k] as number);
				});
				expect(Math.max(...neutrals) - Math.min(...neutrals)).toBeLessThan(2e-3);
				checked += 1;
			},
		});
		expect(checked).toBeGreaterThan(1000);
	},
);

test('a sense node driven by these terminal voltages through its divider is the one the kernel reads, to 0.2 mV', () => {
	const { drive, noise } = buildRequest({ plan: demoPlan('fan-24v.json', quiet), unit: 4, point: 2, start: 0 });
	const { top, bottom, capacitor } = drive.sensing.divider;
	const state = new SegmentState();
	const nodes = new SenseNodes(drive, 'halfBus');
	const ringing = new Ringing();
	ringing.load(drive, noise);
	const voltage = [0, 0, 0];
	let worst = 0;
	let done = false;
	simulatePair(drive, noise, {
		observe(stage) {
			if (done || stage.time > 4e-3) {
				done = true;
				return;
			}
			const steps = Math.max(2, Math.ceil(stage.length / 2e-7));
			const h = stage.length / steps;
			if (h <= 0) return;
			for (let i = 0; i < steps; i++) {
				// midpoint rule; exact for what is constant over a step of 0.2 µs
				state.read(stage, ringing, (i + 0.5) * h);
				for (let k = 0; k < 3; k++) {
					const [t, b] = [top[k] as number, bottom[k] as number];
					const tau = ((capacitor[k] as number) * t * b) / (t + b);
					const aim = ((state.terminal[k] as number) * b) / (t + b);
					voltage[k] = aim + ((voltage[k] as number) - aim) * Math.exp(-h / tau);
				}
			}
			nodes.read(stage, ringing, stage.length);
			const open = [2, 1, 0][stage.kind % 3] as number;
			worst = Math.max(worst, Math.abs(nodes.sense - (voltage[open] as number)));
		},
	});
	expect(worst).toBeGreaterThan(0);
	expect(worst).toBeLessThan(2e-4);
});
