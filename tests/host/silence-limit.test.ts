import { expect, test } from 'vitest';
import { silenceLimitOf } from '../../src/host/silence-limit.ts';
import { smallScenario } from '../study/small-scenario.ts';

test('a worker may be silent for 20 s and at least 10 µs for each period, choice and reading of its longest run', () => {
	const limit = (measured: number, samples: number) =>
		silenceLimitOf(
			smallScenario({ trial: { starts: 1, warmup: 6, settle: 6, measured }, detection: { samples, window: 'whole' } }),
		);
	// 6000 rpm with 4 pole pairs is 2400 sectors a second, 8⅓ periods each of a 20 kHz carrier
	const sectors = 3000;
	expect(limit(sectors - 12, 1) - 20_000).toBeGreaterThanOrEqual(0.01 * 2 * sectors * (20_000 / 2400));
	expect(limit(sectors - 12, 4) - 20_000).toBeCloseTo(4 * (limit(sectors - 12, 1) - 20_000), 6);
	expect(limit(2 * sectors - 12, 1) - 20_000).toBeCloseTo(2 * (limit(sectors - 12, 1) - 20_000), 6);
});
