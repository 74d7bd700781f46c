import { expect, test } from 'vitest';
import { buildRequest, drawBoard } from '../../shared/one-drive/build-request.ts';
import { tailShare, unusualParts } from '../../shared/one-drive/unusual-parts.ts';
import { without } from '../../shared/one-drive/without.ts';
import type { Tolerance } from '../../shared/parameters/parameter.ts';
import { demoPlan } from './demo-plan.ts';

const uniform = (lot: number, mismatch: number, scale: Tolerance['scale'] = 'absolute'): Tolerance => ({
	scale,
	lot,
	mismatch,
	distribution: 'uniform',
	basis: 'assumed',
});

test('of a uniform part at 0.9 of its tolerance, 10 % lie as far out', () => {
	expect(tailShare(uniform(0, 2), 1.8)).toBeCloseTo(0.1, 6);
	expect(tailShare(uniform(0, 2), -1.8)).toBeCloseTo(0.1, 6);
	expect(tailShare(uniform(2, 0), 1.8)).toBeCloseTo(0.1, 6);
	expect(tailShare(uniform(0, 2), 0)).toBeCloseTo(1, 6);
});

test('lot and mismatch of equal width add up to a triangle: a quarter of them beyond half the reach', () => {
	// P(|U₁ + U₂| > 1) = 1/4 with both uniform in ±1
	expect(tailShare(uniform(1, 1), 1)).toBeCloseTo(0.25, 3);
	expect(tailShare(uniform(0.1, 0.1, 'relative'), 0.1)).toBeCloseTo(0.25, 1);
});

test('a part that a lot alone moves is not said to lie beyond its tolerance just within it: 1 in 100 at 0.99 of it', () => {
	expect(tailShare(uniform(3, 0), -2.97)).toBeCloseTo(0.01, 6);
	expect(tailShare(uniform(0.1, 0.0001, 'relative'), 0.0999)).toBeGreaterThan(0.0005);
	expect(tailShare(uniform(3, 0), -3.01)).toBe(0);
});

test('what no such part can reach is a share of 0', () => {
	expect(tailShare(uniform(0, 1), 1.5)).toBe(0);
	expect(tailShare(uniform(0.2, 0.5), -1)).toBe(0);
});

test('over 400 drawn units the share is uniform for every kind of part: half of them below a half', () => {
	const plan = demoPlan('fan-24v.json');
	const below = new Map<string, number>();
	for (let unit = 0; unit < 400; unit++) {
		const { values, deviations } = drawBoard({ plan, unit, point: 0, start: 0 });
		for (const { record, instance, asFarOut } of unusualParts(plan.scenario, values, deviations)) {
			const id = `${record.id} ${instance}`;
			below.set(id, (below.get(id) ?? 0) + (asFarOut < 0.5 ? 1 : 0));
		}
	}
	expect(below.size).toBeGreaterThan(30);
	// binomial(400, ½): five standard deviations are 50; some 40 parts
	for (const [id, count] of below) expect(`${id} ${Math.abs(count - 200) < 50}`).toBe(`${id} true`);
});

test('the most unusual part comes first', () => {
	const plan = demoPlan('fan-24v.json');
	const { values, deviations } = drawBoard({ plan, unit: 9, point: 0, start: 0 });
	const shares = unusualParts(plan.scenario, values, deviations).map(({ asFarOut }) => asFarOut);
	expect(shares).toEqual([...shares].sort((a, b) => a - b));
});

test('parts whose deviation cannot show here are told apart: drift at 25 °C, ringing that is off', () => {
	const { scenario, ...plan } = demoPlan('fan-24v.json');
	const { values, deviations } = drawBoard({ plan: { scenario, ...plan }, unit: 9, point: 0, start: 0 });
	const idle = (at: Readonly<Record<string, number>>): string[] => [
		...new Set(
			unusualParts(scenario, { ...values, ...at }, deviations).flatMap(({ record, acts }) => (acts ? [] : [record.id])),
		),
	];
	expect(idle({}).sort()).toEqual(['noise.ringCoupling', 'sensing.resistorCoefficient']);
	expect(idle({ 'operation.boardTemperature': 60 })).toEqual(['noise.ringCoupling']);
	expect(idle({ 'noise.ringAmplitude': 0.5 })).toEqual(['sensing.resistorCoefficient']);
});

test('without mismatch all phases, dividers and stars are alike, and the divided bus is half of what the dividers see', () => {
	const request = { plan: demoPlan('fan-24v.json'), unit: 9, point: 0, start: 0 };
	const { drive } = buildRequest(request, 'mismatch');
	const { motor, sensing } = drive;
	for (const phases of [
		motor.phaseResistance,
		motor.phaseInductance,
		motor.emfConstant,
		sensing.divider.top,
		sensing.virtualNeutral.star,
	])
		expect(new Set(phases.map((value) => value.toPrecision(12))).size).toBe(1);
	const gain = (top: number, bottom: number): number => bottom / (top + bottom);
	const nominal = gain(48.7e3, 4.7e3) / gain(22e3, 4.7e3);
	const made =
		gain(sensing.halfBus.top, sensing.halfBus.bottom) / gain(sensing.divider.top[0], sensing.divider.bottom[0]);
	expect(made).toBeCloseTo(nominal, 12);
	expect(buildRequest(request).drive.sensing.comparator.offset).toEqual(sensing.comparator.offset);
});

test('each removal changes its own thing alone', () => {
	const request = { plan: demoPlan('pump-12v.json'), unit: 9, point: 0, start: 0 };
	const whole = buildRequest(request).drive;
	expect(buildRequest(request, 'noise').drive).toEqual({ ...whole, noise: { ...whole.noise, sigma: 0 } });
	expect(buildRequest(request, 'ringing').drive).toEqual({ ...whole, noise: { ...whole.noise, ringAmplitude: 0 } });
	expect(buildRequest(request, 'ripple').drive).toEqual({ ...whole, supply: { ...whole.supply, rippleAmplitude: 0 } });
	const { values } = without('offset', drawBoard(request));
	expect(values['sensing.comparator.offset']).toBe(0);
	expect(buildRequest(request, 'offset').drive.sensing.comparator.offset).toEqual([0, 0, 0]);
});
