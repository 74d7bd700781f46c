import { afterEach, describe, expect, it, vi } from 'vitest';
import { buildDrive, type Deviations } from '../../shared/drive/build-drive.ts';
import { type ChoiceName, choiceNames } from '../../shared/drive/drive.ts';
import { silence } from '../../shared/drive/noise.ts';
import { PwmCarrier } from '../../shared/drive/power-stage/pwm-carrier.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { defaultValues } from '../../shared/scenario/default-values.ts';
import type { Values } from '../../shared/scenario/scenario.ts';
import traces from '../data/reference-traces.json' with { type: 'json' };

// Source of the expected figures: an independent fixed-step integration at 5 ns
// written from the same model. Its events fall on its grid, hence the tolerances:
// it agrees with itself at 10 ns to 0.01°.

/** Grid of the reference integration, s. */
const gridStep = 5e-9;

/**
 * Readings outside the common tolerance, since the grid moved the gate edges
 * before them; with the edges on that grid, every reading is inside (below).
 * Board → what is allowed instead.
 */
const gridBound: Readonly<Record<string, Allowance>> = {
	'6 halfBus': { volts: 20e-3 },
	'7 virtualNeutral': { amps: 6e-3 },
	'9 halfBus': { volts: 19e-3 },
};

interface Allowance {
	readonly volts?: number;
	readonly amps?: number;
}

interface Expected {
	readonly errors: number[];
	readonly crossings: (number | null)[];
	readonly torques: number[];
	readonly duties: number[];
	readonly meanTorque: number;
	readonly lost: boolean;
	readonly readings: number[][];
}

const cases = traces.cases as unknown as readonly {
	case: number;
	parameters: Values;
	deviations: Deviations;
	expected: Record<ChoiceName, Expected>;
}[];

/** Ends of segments at gate edges, commutations and diode events, s. */
type EventTimes = Record<string, number[]>;

function run(parameters: Values, deviations: Deviations) {
	const compensation = parameters['detection.compensation'] as number;
	const drive = buildDrive({ ...defaultValues(), ...parameters }, deviations, {
		halfBus: compensation,
		virtualNeutral: compensation,
	});
	const events: EventTimes = { warmup: [], halfBus: [], virtualNeutral: [] };
	const record = simulatePair(drive, silence, {
		readingSectors: 3,
		observe: (stage, choice) => {
			if (stage.boundary === 'gate' || stage.boundary === 'limit' || stage.boundary === 'event') {
				events[choice]?.push(stage.time + stage.length);
			}
		},
	});
	const { divider } = drive.sensing;
	const timeConstant = Math.max(
		...[0, 1, 2].map((k) => {
			const [top, bottom, c] = [divider.top[k] ?? 0, divider.bottom[k] ?? 0, divider.capacitor[k] ?? 0];
			return (c * top * bottom) / (top + bottom);
		}),
	);
	return { record, events, timeConstant };
}

describe('23 reference boards, both choices', () => {
	it('are all there', () => {
		expect(cases.length).toBe(23);
	});

	for (const { case: number, parameters, deviations, expected } of cases) {
		const found = run(parameters, deviations);
		const { record } = found;
		for (const choice of choiceNames) {
			const got = record[choice];
			const want = expected[choice];

			it(`board ${number}, ${choice}: angle and crossing errors within 0.02°`, () => {
				expect(got.lost).toBe(want.lost);
				expect(got.errors.length).toBe(want.errors.length);
				for (const [i, error] of want.errors.entries())
					expect(Math.abs((got.errors[i] ?? NaN) - error)).toBeLessThan(0.02);
				expect(got.crossings.length).toBe(want.crossings.length);
				for (const [i, crossing] of want.crossings.entries()) {
					const mine = got.crossings[i] ?? 0;
					if (crossing === null) expect(mine).toBeNaN();
					else expect(Math.abs(mine - crossing)).toBeLessThan(0.02);
				}
			});

			it(`board ${number}, ${choice}: duties within 0.001, torques within 1 % or 0.2 mN·m`, () => {
				expect(got.duties.length).toBe(want.duties.length);
				for (const [i, duty] of want.duties.entries())
					expect(Math.abs((got.duties[i] ?? NaN) - duty)).toBeLessThan(1e-3);
				const near = (mine: number, theirs: number) =>
					expect(Math.abs(mine - theirs)).toBeLessThan(Math.max(0.01 * Math.abs(theirs), 0.2e-3));
				expect(got.torques.length).toBe(want.torques.length);
				for (const [i, torque] of want.torques.entries()) near(got.torques[i] ?? NaN, torque);
				near(got.meanTorque, want.meanTorque);
			});

			it(`board ${number}, ${choice}: readings within 2 mV + 60 mV·e^(−a/τ) and 5 mA`, () => {
				expectReadings(found, choice, want, gridBound[`${number} ${choice}`]);
			});
		}
	}
});

describe('the same with every gate edge at the first 5 ns step at or after its time, as the reference has it', () => {
	afterEach(() => vi.restoreAllMocks());

	for (const { case: number, parameters, deviations, expected } of cases) {
		it(`board ${number}: every reading of both choices within 2 mV + 60 mV·e^(−a/τ) and 5 mA`, () => {
			const values = { ...defaultValues(), ...parameters };
			const stepsPerPeriod = 1 / (values['inverter.pwmFrequency'] as number) / gridStep;
			const exactEnd = PwmCarrier.prototype.onEnd;
			let moved = 0;
			vi.spyOn(PwmCarrier.prototype, 'onEnd').mockImplementation(function (this: PwmCarrier) {
				const end = exactEnd.call(this);
				const wait = gridStep * Math.ceil((this.periodStart + end) / gridStep - 1e-6) - this.periodStart - end;
				if (wait < 1e-6 * gridStep) return end;
				moved = Math.max(moved, wait);
				return end + wait;
			});
			// whole steps a period: its start falls on the grid where the first one does
			expect(stepsPerPeriod).toBeCloseTo(Math.round(stepsPerPeriod), 6);
			const phase =
				Math.floor(((deviations.pwmPhase as number | undefined) ?? 0) * stepsPerPeriod + 1e-6) / stepsPerPeriod;
			const found = run(parameters, { ...deviations, pwmPhase: phase });
			for (const choice of choiceNames) expectReadings(found, choice, expected[choice]);
			// without it, nothing would tell that any edge was moved
			expect(moved).toBeGreaterThan(0.9 * gridStep);
			expect(moved).toBeLessThanOrEqual(gridStep);
		});
	}
});

/** a: the time since the last edge, commutation or diode end; τ: the divider's time constant. */
function expectReadings(
	{ record, events, timeConstant }: ReturnType<typeof run>,
	choice: ChoiceName,
	want: Expected,
	allowed: Allowance = {},
): void {
	const readings = record[choice].readings ?? [];
	for (const theirs of want.readings) {
		const [time = NaN] = theirs;
		const mine = readings.find(([t = NaN]) => Math.abs(t - time) < 20e-9);
		expect(mine, `no reading at ${time} s`).toBeDefined();
		if (!mine) continue;
		const before = (events[choice] ?? []).filter((t) => t < time);
		const age = time - (before[before.length - 1] ?? 0);
		const volts = Math.max(2e-3 + 60e-3 * Math.exp(-age / timeConstant), allowed.volts ?? 0);
		const amps = Math.max(5e-3, allowed.amps ?? 0);
		for (const i of [1, 2]) expect(Math.abs((mine[i] ?? NaN) - (theirs[i] ?? 0))).toBeLessThan(volts);
		for (const i of [3, 4, 5]) expect(Math.abs((mine[i] ?? NaN) - (theirs[i] ?? 0))).toBeLessThan(amps);
	}
}
