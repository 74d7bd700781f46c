import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { buildDrive } from '../../shared/drive/build-drive.ts';
import { Circuit } from '../../shared/drive/circuit.ts';
import { type ChoiceName, choiceNames, type Drive } from '../../shared/drive/drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { Ringing } from '../../shared/drive/ringing.ts';
import { NetworkNode } from '../../shared/drive/sensing/network-node.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { defaultValues } from '../../shared/scenario/default-values.ts';
import { readScenario } from '../../shared/scenario/read-scenario.ts';
import type { Values } from '../../shared/scenario/scenario.ts';
import { unitDrives } from '../../shared/study/unit-drives.ts';
import { traceCases } from '../data/trace-cases.ts';
import { benchTolerance } from '../reference/bench-tolerance.ts';
import { type DiodeEvent, type OdexOptions, odexRun } from '../reference/odex-run.ts';
import { anyDrive } from './any-drive.ts';
import { driveWith, farthest } from './drives.ts';

/*
 * The engine against odex on the differential equations as they stand, written
 * a second time (tests/reference), from which it takes nothing. Both are exact
 * but for rounding and odex's tolerance of 10⁻¹⁰. Measured: currents 2·10⁻¹¹ A,
 * diode events 6·10⁻¹⁶ s, angles 10⁻¹² degrees, duty and torque 10⁻¹³; the
 * tolerances leave a few decades to other machines' rounding. A sensing node is
 * 2·10⁻⁷ V off: the engine works it out from 18 of its time constants back, and
 * e⁻¹⁸ of the 24 V that it might have been wrong by there are 4·10⁻⁷ V.
 */
const allowed = { amps: 1e-9, volts: 4e-7, degrees: 1e-8, duty: 1e-10, torque: 1e-10, seconds: 1e-12 };
const tolerance = { absolute: 1e-10, relative: 1e-10 };

const unequal = {
	'motor.phaseResistance': [0.05, -0.08, 0.02],
	'motor.phaseInductance': [-0.07, 0.09, 0.03],
	'motor.emfConstant': [0.02, -0.01, 0.03],
	'motor.placement': [0.8, -0.6, 0.3],
	'motor.flatTop': 2.3,
	'sensing.divider.top': [0.01, -0.004, 0.007],
	'sensing.divider.capacitor': [0.1, -0.06, 0.03],
	'sensing.virtualNeutral.star': [-0.008, 0.009, 0.002],
	'sensing.comparator.offset': [0.004, -0.003, 0.001],
	pwmPhase: 0.37,
	ripplePhase: 0.61,
	ringPhase: 0.23,
};

/** Short enough for odex: an electrical turn of warm-up and one of closed loop. */
const short: Values = {
	'trial.warmup': 6,
	'trial.settle': 0,
	'trial.measured': 6,
	'detection.intervalsAveraged': 2,
	'detection.compensation': 20e-6,
	'inverter.shuntResistance': 0.02,
	'supply.rippleAmplitude': 1.5,
	'supply.rippleFrequency': 300,
	'operation.speed': 2600,
	'operation.torque': 0.09,
};

/**
 * Name, what differs from `short`, and how often at least diodes stop and start
 * by themselves. One stops after every commutation, and where the open terminal
 * is clamped while the chopped switch is off, in every period; most start at a
 * gate edge, which is no event.
 */
const drives: readonly (readonly [string, Values, { readonly stops: number; readonly starts: number }])[] = [
	['high-side', { 'inverter.chopping': 'high-side', 'sensing.comparator.hysteresis': 0.01 }, { stops: 100, starts: 1 }],
	['low-side', { 'inverter.chopping': 'low-side', 'sensing.converter.bits': 12 }, { stops: 100, starts: 1 }],
	[
		'complementary with dead time',
		{ 'inverter.chopping': 'complementary', 'inverter.deadTime': 1.5e-6 },
		{ stops: 100, starts: 1 },
	],
	[
		'both',
		{ 'inverter.chopping': 'both', 'detection.window': 'whole', 'detection.samples': 3 },
		{ stops: 12, starts: 0 },
	],
	[
		'both, with gaps in all currents',
		{ 'inverter.chopping': 'both', 'operation.speed': 1200, 'operation.torque': 0.012, 'detection.window': 'off' },
		{ stops: 100, starts: 0 },
	],
];

/** What the engine did between two of its events, in one choice's run. */
interface Sample {
	readonly time: number;
	readonly currents: readonly number[];
	/** Sense nodes a, b, c and the star node, ringing included. */
	readonly nodes: readonly number[];
}

/** One choice's run by the engine, seen at the end of each of its segments, with its diode events. */
function engineRun(drive: Drive, choice: ChoiceName) {
	const circuit = new Circuit();
	circuit.load(drive);
	const ringing = new Ringing();
	ringing.load(drive, silence);
	const nodes = [0, 1, 2, 3].map((node) => new NetworkNode(node));
	const samples: Sample[] = [];
	const events: number[] = [];
	const pair = simulatePair(drive, silence, {
		readingSectors: drive.trial.measured,
		observe(stage, during) {
			if (during !== 'warmup' && during !== choice) return;
			const { length } = stage;
			if (length <= 0) return;
			const time = stage.time + length;
			stage.history.point.goTo(circuit, stage.history.count, length);
			for (const node of nodes) node.read(stage.history, circuit, ringing);
			samples.push({
				time,
				currents: stage.currentsAt(length),
				nodes: nodes.map(({ value, ringing: rung }) => value + rung),
			});
			if (stage.boundary === 'event') events.push(time);
		},
	});
	return { record: pair[choice], samples, events };
}

/** The same by odex, seen at the same instants. */
function odexAt(drive: Drive, choice: ChoiceName, samples: readonly Sample[], options: OdexOptions = {}) {
	const states: number[][] = [];
	const events: DiodeEvent[] = [];
	const record = odexRun(drive, choice, {
		...tolerance,
		...options,
		readingSectors: drive.trial.measured,
		instants: samples.map(({ time }) => time),
		observe: (_time, state) => void states.push([...state]),
		onEvent: (event) => void events.push(event),
	});
	return { record, states, events };
}

function compare(drive: Drive, choice: ChoiceName, options: OdexOptions = {}) {
	const engine = engineRun(drive, choice);
	const odex = odexAt(drive, choice, engine.samples, options);
	// the last instants may lie a rounding error beyond odex's end
	const seen = engine.samples.slice(0, odex.states.length);
	expect(engine.samples.length - seen.length).toBeLessThanOrEqual(1);
	const over = (difference: (sample: Sample, state: readonly number[]) => number): number =>
		seen.reduce((most, sample, i) => Math.max(most, difference(sample, odex.states[i] as number[])), 0);
	return {
		engine,
		odex,
		amps: over(({ currents }, state) => farthest(currents, state.slice(0, 3))),
		volts: over(({ nodes }, state) => farthest(nodes, state.slice(3, 7))),
	};
}

describe.each(['trapezoidal', 'sinusoidal'])('%s back-EMF, unequal phases, rippling bus, shunt', (shape) => {
	for (const [name, parameters, least] of drives) {
		const drive = driveWith({ ...short, ...parameters, 'motor.shape': shape }, unequal);
		for (const choice of choiceNames) {
			const { engine, odex, amps, volts } = compare(drive, choice);

			it(`${name}, ${choice}: currents agree to 10⁻⁹ A and nodes to 4·10⁻⁷ V at every edge, corner and diode event`, () => {
				expect(engine.samples.length).toBeGreaterThan(300);
				expect(amps).toBeLessThan(allowed.amps);
				expect(volts).toBeLessThan(allowed.volts);
			});

			it(`${name}, ${choice}: diodes start and stop within 1 ps of where odex finds it`, () => {
				const stops = odex.events.filter(({ to }) => to === 'open').length;
				expect(stops).toBeGreaterThanOrEqual(least.stops);
				expect(odex.events.length - stops).toBeGreaterThanOrEqual(least.starts);
				expect(
					farthest(
						engine.events,
						odex.events.map(({ time }) => time),
					),
				).toBeLessThan(allowed.seconds);
			});

			it(`${name}, ${choice}: angle errors and crossings agree to 10⁻⁸°, duty and torque to 10⁻¹⁰`, () => {
				const [mine, theirs] = [engine.record, odex.record];
				expect(Math.max(...theirs.duties)).toBeLessThan(1);
				expect(theirs.lost).toBe(mine.lost);
				expect(theirs.errors.length).toBeGreaterThan(3);
				expect(farthest(mine.errors, theirs.errors)).toBeLessThan(allowed.degrees);
				expect(farthest(mine.crossings, theirs.crossings)).toBeLessThan(allowed.degrees);
				expect(farthest(mine.duties, theirs.duties)).toBeLessThan(allowed.duty);
				expect(farthest(mine.torques, theirs.torques)).toBeLessThan(allowed.torque);
				expect(Math.abs(mine.meanTorque - theirs.meanTorque)).toBeLessThan(allowed.torque);
			});

			it(`${name}, ${choice}: readings agree, the thresholds with them`, () => {
				const [mine, theirs] = [engine.record.readings ?? [], odex.record.readings];
				expect(theirs.length).toBe(mine.length);
				for (const [i, reading] of theirs.entries()) {
					expect(farthest(reading.slice(1, 3), mine[i]?.slice(1, 3) ?? [])).toBeLessThan(allowed.volts);
					expect(farthest(reading.slice(3), mine[i]?.slice(3) ?? [])).toBeLessThan(allowed.amps);
				}
			});
		}
	}
});

describe('windings whose current would take seconds to decay', () => {
	const slow: Values = {
		'motor.phaseResistance': 2e-3,
		'motor.phaseInductance': 5e-3,
		'inverter.switchResistance': 1e-3,
		'inverter.shuntResistance': 0,
	};
	it.each(['trapezoidal', 'sinusoidal'])('%s: duty and torque agree to 10⁻⁶, angle errors to 10⁻⁶°', (shape) => {
		const drive = driveWith({ ...short, ...slow, 'motor.shape': shape }, unequal);
		const odex = odexRun(drive, 'halfBus', tolerance);
		const record = simulatePair(drive, silence).halfBus;
		expect(odex.errors.length).toBe(6);
		expect(farthest(record.duties, odex.duties)).toBeLessThan(1e-6);
		expect(farthest(record.torques, odex.torques)).toBeLessThan(1e-6);
		expect(farthest(record.errors, odex.errors)).toBeLessThan(1e-6);
	});
});

describe('ringing of 2 V at 0.9 MHz', () => {
	// the run's spread of the ring's phase is 0: the unit's own phase is left, which odex gets too
	const ringing: Values = {
		'noise.ringAmplitude': 2,
		'noise.ringFrequency': 0.9e6,
		'noise.ringDecay': 1.5e-6,
		'noise.ringCoupling': 0.45,
		'noise.ringPhaseSpread': 0,
		'trial.measured': 2,
	};
	it.each(['high-side', 'low-side', 'both', 'complementary'])(
		'%s: sense nodes and star node agree to 4·10⁻⁷ V, and the angles with them',
		(chopping) => {
			const drive = driveWith({ ...short, ...ringing, 'inverter.chopping': chopping }, unequal);
			const { engine, odex, volts } = compare(drive, 'virtualNeutral', { ringing: true });
			const calm = odexAt(drive, 'virtualNeutral', engine.samples.slice(0, 100));
			const rung = odex.states
				.slice(0, 100)
				.map((state, i) => farthest(state.slice(3, 7), calm.states[i]?.slice(3, 7) ?? []));
			expect(Math.max(...rung)).toBeGreaterThan(0.01); // it does ring
			expect(volts).toBeLessThan(allowed.volts);
			expect(farthest(engine.record.errors, odex.record.errors)).toBeLessThan(allowed.degrees);
		},
	);
});

describe('the demo scenarios’ first drive as drawn, ringing without spread, no noise', () => {
	const folder = new URL('../../scenarios/', import.meta.url);
	it.each(['fan-24v', 'pump-12v', 'rectified-slow', 'spindle-48v'])(
		'%s: angle errors of both choices agree to 10⁻⁸° at the fastest point',
		(name) => {
			const reading = readScenario(readFileSync(new URL(`${name}.json`, folder), 'utf8'));
			if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
			const plan = {
				scenario: reading.scenario,
				seed: 'odex',
				compensation: { halfBus: 20e-6, virtualNeutral: 20e-6 },
			};
			const drawn = [...unitDrives(plan, 0)].map(({ drive }) => drive);
			const drive = drawn.reduce((one, other) => (other.operation.speed > one.operation.speed ? other : one));
			const quiet: Drive = {
				...drive,
				noise: { ...drive.noise, sigma: 0, ringPhaseSpread: 0 },
				trial: { ...drive.trial, warmup: 3, settle: 0, measured: 9 },
			};
			const pair = simulatePair(quiet, silence);
			for (const choice of choiceNames) {
				const { errors, torques } = odexRun(quiet, choice, { ...tolerance, ringing: true });
				expect(farthest(pair[choice].errors, errors)).toBeLessThan(allowed.degrees);
				expect(farthest(pair[choice].torques, torques)).toBeLessThan(allowed.torque);
			}
		},
	);
});

describe('drives far from the usual, in which diodes stop and start again between two edges', () => {
	// found among 400 of the kind: events that lie in pairs within what was once taken for one segment
	it.each(['b-68', 'b-214', 'b-246', 'b-344', 'b-388', 'b-398'])(
		'drive %s: angle errors of both choices agree to 10⁻⁷°, duties and torques to 10⁻⁸',
		(seed) => {
			const drive = anyDrive(seed);
			const pair = simulatePair(drive, silence);
			for (const choice of choiceNames) {
				const odex = odexRun(drive, choice, { absolute: 1e-9, relative: 1e-9, ringing: true });
				const mine = pair[choice];
				expect(mine.lost).toBe(odex.lost);
				expect(farthest(mine.errors, odex.errors)).toBeLessThan(1e-7);
				expect(farthest(mine.crossings, odex.crossings)).toBeLessThan(1e-7);
				expect(farthest(mine.duties, odex.duties)).toBeLessThan(1e-8);
				expect(Math.abs(mine.meanTorque - odex.meanTorque) / drive.operation.torque).toBeLessThan(1e-8);
			}
		},
	);
});

describe('odex at the bench’s tolerance', () => {
	// one board of the reference traces for each chopping; npm run bench checks all 23 and both choices
	it.each([3, 5, 13, 18])('keeps board %i within 0.005° of the reference traces', (number) => {
		const found = traceCases.find((one) => one.case === number);
		if (!found) throw new Error(`no board ${number}`);
		const { parameters, deviations, expected } = found;
		const compensation = parameters['detection.compensation'] as number;
		const drive = buildDrive({ ...defaultValues(), ...parameters }, deviations, {
			halfBus: compensation,
			virtualNeutral: compensation,
		});
		const { errors } = odexRun(drive, 'halfBus', benchTolerance);
		expect(farthest(errors, expected.halfBus.errors)).toBeLessThan(0.005);
	});
});
