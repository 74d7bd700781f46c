import { expect, test } from 'vitest';
import { compensationFrom } from '../../shared/study/compensation.ts';
import { nominalCompensation, nominalDelays } from '../../shared/study/nominal-delay.ts';
import { smallScenario } from './small-scenario.ts';

const fan = { points: [{ name: 'rated', speed: 3000, torque: 0.1 }], supply: { voltage: 24 }, trial: {} };

test('two votes at one reading per 50 µs delay a crossing by 1.5 periods, the latency and the divider: 77.8 µs', () => {
	// Closed form: the first reading comes T/2 after a crossing on average and the second vote T later;
	// a first-order filter lags a ramp by RC = (22 kΩ ∥ 4.7 kΩ) · 470 pF = 1.82 µs; latency 1 µs.
	// 1 µs of tolerance: the nominal thresholds' gains are off by fractions of a per cent on purpose.
	const { compensation, warnings } = nominalCompensation(smallScenario(fan));
	expect(Math.abs(compensation.halfBus - 77.8e-6)).toBeLessThan(1e-6);
	expect(Math.abs(compensation.virtualNeutral - 77.8e-6)).toBeLessThan(1e-6);
	expect(warnings).toEqual([]);
});

test('a compensation stated as a time is taken as it is, for both choices', () => {
	const scenario = smallScenario({ ...fan, detection: { compensation: '75 µs' } });
	expect(nominalCompensation(scenario).compensation).toEqual({ halfBus: 75e-6, virtualNeutral: 75e-6 });
});

test('noise and tolerances do not touch it: it belongs to the nominal drive', () => {
	const quiet = nominalCompensation(smallScenario({ ...fan, noise: { sigma: 0 } }));
	const noisy = nominalCompensation(
		smallScenario({
			...fan,
			noise: { sigma: '50 mV', ringAmplitude: 5 },
			motor: { placement: { value: 0, mismatch: '5°' } },
		}),
	);
	expect(noisy).toEqual(quiet);
});

test('shared out over workers as 5 and 11 phases, in either order, it has the same digits as in one piece', () => {
	const scenario = smallScenario(fan);
	const [first, second] = [nominalDelays(scenario, 0, 5), nominalDelays(scenario, 5, 16)];
	const whole = compensationFrom([nominalDelays(scenario)]);
	expect(compensationFrom([first, second])).toEqual(whole);
	expect(compensationFrom([second, first])).toEqual(whole);
});

test('without a single crossing it is 0, with a warning for each choice', () => {
	const none = { from: 0, seconds: new Float64Array(32), crossings: new Uint32Array(32) };
	const { compensation, warnings } = compensationFrom([none]);
	expect(compensation).toEqual({ halfBus: 0, virtualNeutral: 0 });
	expect(warnings).toHaveLength(2);
	expect(warnings[0]).toContain('half-bus');
	expect(warnings[1]).toContain('virtual-neutral');
});

test('phases are added up in their order, in whatever order they come in, to the last bit', () => {
	const part = (from: number, seconds: number) => ({
		from,
		seconds: Float64Array.of(seconds, seconds),
		crossings: Uint32Array.of(1, 1),
	});
	const parts = [part(0, 1), part(1, 1e-16), part(2, 1e-16)];
	// 1 + 1e-16 is 1; 1e-16 + 1e-16 + 1 is more
	expect(compensationFrom(parts).compensation.halfBus).toBe(1 / 3);
	expect(compensationFrom(parts.toReversed())).toEqual(compensationFrom(parts));
});
