import { expect, test, vi } from 'vitest';
import { runEnvelopeInPool } from '../../src/host/run-envelope.ts';
import { inlinePool } from '../grades/inline-pool.ts';
import { smallScenario } from '../study/small-scenario.ts';

vi.setConfig({ testTimeout: 120_000 });

const exact = { mismatch: 0, lot: 0 };
/**
 * Speed and torque need 2Kω + 2(R + R_on)T/(2K): 37.2 V at 5820 rpm, 39.4 V at
 * 6180 rpm. The bus is 38.8 or 41.2 V: at one combination alone the torque is
 * out of reach.
 */
const tight = (changes: Record<string, unknown> = {}) =>
	smallScenario({
		motor: {
			phaseResistance: { value: 0.35, ...exact },
			phaseInductance: { value: 350e-6, ...exact },
			emfConstant: { value: 0.03, ...exact },
		},
		supply: { voltage: { value: 40, range: '3 %' }, rippleAmplitude: 0 },
		points: [
			{ name: 'easy', speed: { value: 3000, range: '3 %' }, torque: 0.05 },
			{ name: 'tight', speed: { value: 6000, range: '3 %' }, torque: 0.05 },
		],
		requirement: { angleLimit: '30°', crossingsPerHour: 1e9 },
		...changes,
	});

test('of 8 combinations the worst is the known one, high speed on a low bus, for both choices; nobody passes it', async () => {
	const result = await runEnvelopeInPool(
		{ scenario: tight(), seed: 'envelope', units: 10, combinations: 512 },
		inlinePool(),
	);
	expect(result.possible).toBe(8);
	expect(result.combinations).toHaveLength(8);
	expect(result.thinned).toBeNull();
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		const worst = result.combinations[result.worst[choice] ?? -1];
		expect(worst).toMatchObject({
			point: 'tight',
			limits: { 'operation.speed': 'high', 'supply.voltage': 'low' },
			conditions: { 'operation.speed': 6180, 'supply.voltage': 38.8 },
		});
		expect(worst?.choices[choice].passed).toBe(0);
		expect(result.everywhere[choice]).toMatchObject({ passed: 0, verdict: { decision: 'fails' } });
		const others = result.combinations.filter((one) => one !== worst);
		expect(Math.min(...others.map(({ choices }) => choices[choice].passed))).toBe(10);
	}
	expect(result.sentence).toContain('tight with speed high (6180\u00a0rpm), bus voltage low (38.8\u00a0V)');
});

test('a thinned envelope searches on from the worst it has and finds the known worst', async () => {
	const ranges = {
		rippleFrequency: { value: 100, range: '10 %' },
		boardTemperature: { value: 25, range: 20, scale: 'absolute' },
	};
	const point = { name: 'tight', speed: { value: 6000, range: '3 %' }, torque: 0.05, ...ranges };
	const result = await runEnvelopeInPool(
		{ scenario: tight({ points: [point] }), seed: 'envelope', units: 6, combinations: 8 },
		inlinePool(),
	);
	expect(result.possible).toBe(16);
	expect(result.thinned).toEqual({ strength: 3 });
	expect(result.combinations.filter(({ isSearched }) => !isSearched)).toHaveLength(8);
	expect(result.combinations.some(({ isSearched }) => isSearched)).toBe(true);
	const worst = result.combinations[result.worst.halfBus ?? -1];
	expect(worst?.limits).toMatchObject({ 'operation.speed': 'high', 'supply.voltage': 'low' });
	expect(result.sentence).toMatch(/^.*Of 16 combinations.*any 3 conditions/);
});

test('drives that were not simulated at some combination count against passing everywhere', async () => {
	const pool = inlinePool({
		before: (name, from) => {
			if (name === 'unitsOfVariants' && from === 0) throw new Error('no memory');
		},
	});
	const easy = tight({ points: [{ name: 'easy', speed: { value: 3000, range: '3 %' }, torque: 0.05 }] });
	const result = await runEnvelopeInPool(
		{ scenario: easy, seed: 'envelope', units: 5, combinations: 512, shardSize: 2 },
		pool,
	);
	// combinations 0 and 1 of unit 0
	expect(result.provenance.units).toEqual({ asked: 20, finished: 18, failed: 2 });
	expect(result.everywhere.halfBus).toMatchObject({ passed: 4, verdict: { share: 0.8 } });
});
