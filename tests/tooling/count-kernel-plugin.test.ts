import { expect, test } from 'vitest';
import { countKernel } from '../../src/tooling/count-kernel-plugin.mjs';
import { loadFromTests } from '../../src/tooling/load-from-tests.mjs';
import type { kernelCounts } from '../bench/kernel-counts.ts';
import { smallScenario } from '../study/small-scenario.ts';

const plan = (changes: Readonly<Record<string, unknown>> = {}) => ({
	scenario: smallScenario(changes),
	seed: 'counts',
	compensation: { halfBus: 50e-6, virtualNeutral: 50e-6 },
});

test('a counting build counts one draw a reading where every reading is noisy, none without noise', async () => {
	// the build itself takes a few seconds, on a busy machine many
	const built = await loadFromTests('counted-in-test', 'tests/bench/kernel-counts.ts', { plugins: [countKernel()] });
	const counts = built.kernelCounts as typeof kernelCounts;
	// 1 V on a divided 48 V: no reading is so far from the threshold that its deviate is left out
	const noisy = counts(plan({ noise: { sigma: '1 V' } }));
	expect(noisy.draws).toBe(noisy.readings);
	expect(noisy.readings).toBeGreaterThan(0.05);
	expect(noisy.readings).toBeLessThan(1);

	const quiet = counts(plan({ noise: { sigma: 0 } }));
	expect(quiet.draws).toBe(0);
	expect(quiet.readings).toBeGreaterThan(0);
	expect(quiet.exponentials).toBeGreaterThan(quiet.events);
	// two gate edges a period at least, the warm-up counted with both choices but gone through once
	expect(quiet.segments).toBeGreaterThan(1.5);
}, 120_000);
