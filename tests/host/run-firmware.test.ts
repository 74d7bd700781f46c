import { expect, test, vi } from 'vitest';
import { runFirmwareInPool } from '../../src/host/run-firmware.ts';
import { inlinePool } from '../grades/inline-pool.ts';
import { smallScenario } from '../study/small-scenario.ts';

vi.setConfig({ testTimeout: 120_000 });

test('a delay taken 40 µs too short is found, and on fresh drives the mean error is 0 within 3 standard errors', async () => {
	const detuned = smallScenario({ detection: { compensation: '35 µs' } });
	const result = await runFirmwareInPool({ scenario: detuned, seed: 'tune', units: 150 }, inlinePool());
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		const { before, after, confirmed } = result.choices[choice];
		expect(before).toEqual({ compensation: 35e-6, advanceTrim: 0 });
		// 40 µs are 6° at 150 000°/s
		expect(confirmed?.before.error.mean).toBeGreaterThan(4);
		// both the fit's drives and the fresh ones scatter
		const scatter = Math.SQRT2 * (confirmed?.after.error.standardError ?? 0);
		expect(scatter).toBeLessThan(0.2);
		expect(Math.abs(confirmed?.after.error.mean ?? 99)).toBeLessThan(3 * scatter);
		expect(after.compensation).not.toBe(before.compensation);
		// two points, two settings: each point's own mean is nulled too
		for (const { mean, standardError } of confirmed?.after.error.points ?? []) {
			expect(Math.abs(mean)).toBeLessThan(3 * Math.SQRT2 * standardError);
		}
	}
	expect(result.confirmationSeed).not.toBe(result.provenance.seed);
	expect(result.sentence).not.toContain('too few');
	expect(result.sentence).toMatch(/before: 35\u00a0µs.*150 fresh drives/);
});

test('a tuning that takes out 6° of common error lets drives pass that failed, and the test over pairs says so', async () => {
	const detuned = smallScenario({
		detection: { compensation: '20 µs' },
		requirement: { angleLimit: '12°', crossingsPerHour: 1e9, share: 0.5 },
	});
	const { choices, sentence } = await runFirmwareInPool({ scenario: detuned, seed: 'pass', units: 40 }, inlinePool());
	expect(sentence).not.toContain('too few');
	for (const choice of ['halfBus', 'virtualNeutral'] as const) {
		const { before, after, change } = choices[choice].confirmed ?? {};
		expect(after?.passed).toBe((before?.passed ?? 0) + (change?.gained ?? 0) - (change?.lost ?? 0));
		expect(change?.gained).toBeGreaterThan(20);
		expect(change?.p).toBeLessThan(1e-4);
	}
});

test('20 drives cannot show 90 % with 95 % confidence, which takes 29: the sentence says so', async () => {
	const scenario = smallScenario({ requirement: { share: 0.9, confidence: 0.95 } });
	const { sentence } = await runFirmwareInPool({ scenario, seed: 'few', units: 20 }, inlinePool());
	expect(sentence).toMatch(/ 20 drives are too few to show that the requirement holds: .* 29 could\.$/);
});

test('interrupted, nothing is confirmed', async () => {
	const cancel = new AbortController();
	const result = await runFirmwareInPool(
		{
			scenario: smallScenario(),
			seed: 'cut',
			units: 50,
			signal: cancel.signal,
			shardSize: 10,
			onProgress: () => cancel.abort(),
		},
		inlinePool(),
	);
	expect(result.provenance.partial).toBe(true);
	expect(result.choices.halfBus.confirmed).toBeNull();
	expect(result.sentence).toMatch(/^Stopped before the first round of 50 drives was finished: /);
});
