import { expect, test, vi } from 'vitest';
import { choiceNames } from '../../shared/drive/drive.ts';
import { runReplicatesInPool } from '../../src/host/run-replicates.ts';
import { runStudyInPool } from '../../src/host/run-study.ts';
import { inlinePool } from '../grades/inline-pool.ts';
import { smallScenario } from '../study/small-scenario.ts';

vi.setConfig({ testTimeout: 600_000 });

const scenario = smallScenario({
	detection: { compensation: '75 µs' },
	requirement: { angleLimit: '4.6°', crossingsPerHour: 1e9, share: 0.5, confidence: 0.9 },
});
const request = { scenario, seed: 'demo', replicates: 8, units: 16 };

test.each(['latin', 'sobol'] as const)(
	'%s draws and independent ones agree on every figure within the intervals of both',
	async (draws) => {
		// so many that a drive or two without lock leave the limits of the 95th percentile finite
		const stratified = await runReplicatesInPool({ ...request, draws, units: 32 }, inlinePool());
		const { points, verdict } = await runStudyInPool({ scenario, seed: 'other', units: 300 }, inlinePool());
		expect(stratified.provenance.draws).toEqual({ kind: draws, replicates: { asked: 8, finished: 8 }, units: 32 });
		expect(stratified.provenance.methods.draws).toContain('8 independent replicates of 32 drives');
		for (const choice of choiceNames) {
			const { passed, failed } = verdict[choice];
			const share = passed / (passed + failed);
			const { estimate, interval } = stratified.passing[choice];
			const half = interval === null ? 0.02 : (interval.high - interval.low) / 2;
			expect(Math.abs(estimate - share)).toBeLessThan(2 * (half + 2 * Math.sqrt((share * (1 - share)) / 300)) + 0.01);
			for (const [place, point] of stratified.points.entries()) {
				const { unitError, unitFigures } = points[place]?.choices[choice] ?? {};
				const own = point.meanError[choice];
				const width = (own.interval?.high ?? 0) - (own.interval?.low ?? 0);
				const { mean, sd } = unitFigures?.mean ?? {};
				expect(width).toBeGreaterThan(0);
				expect(Math.abs(own.estimate - (mean ?? 99))).toBeLessThan(width + (4 * (sd ?? 0)) / Math.sqrt(300));
				const { interval: worse } = point.worse[choice];
				const [low, high] = unitError?.q95Interval ?? [99, 0];
				expect(worse?.low).toBeLessThan(high);
				expect(worse?.high).toBeGreaterThan(low);
			}
		}
		expect(stratified.sentence).toMatch(/no verdict: that takes independent draws\.$/);
	},
);

test('both choices share their draws: the interval of the difference in error is narrower than those of the two allow', async () => {
	const { points } = await runReplicatesInPool({ ...request, draws: 'sobol' }, inlinePool());
	for (const { meanError } of points) {
		const half = (name: 'halfBus' | 'virtualNeutral' | 'difference'): number =>
			((meanError[name].interval?.high ?? 0) - (meanError[name].interval?.low ?? 0)) / 2;
		expect(meanError.difference.estimate).toBeCloseTo(
			meanError.halfBus.estimate - meanError.virtualNeutral.estimate,
			10,
		);
		expect(half('difference')).toBeLessThan(half('halfBus') + half('virtualNeutral'));
	}
});

test('no figure depends on how the drives are shared out; a failed shard is counted and its drives do not pass', async () => {
	const small = { ...request, draws: 'latin' as const, replicates: 2, units: 6 };
	const one = await runReplicatesInPool(small, inlinePool());
	expect(await runReplicatesInPool({ ...small, shardSize: 4 }, inlinePool())).toEqual(one);
	const faulty = inlinePool({
		before(name, from) {
			if (name === 'unitsOfPlans' && from === 8) throw new Error('broken');
		},
	});
	const { provenance, passing } = await runReplicatesInPool({ ...small, shardSize: 2 }, faulty);
	expect(provenance.failures).toEqual([8, 9].map((unit) => ({ unit, message: 'broken' })));
	expect(provenance.units).toEqual({ asked: 12, finished: 10, failed: 2 });
	expect(passing.halfBus.estimate).toBeLessThanOrEqual(10 / 12);
});

test('cut short, figures are of whole replicates alone', async () => {
	const stop = new AbortController();
	const pool = inlinePool({
		before(name, from) {
			if (name === 'unitsOfPlans' && from >= 35) stop.abort();
		},
	});
	const { provenance, passing } = await runReplicatesInPool(
		{ ...request, draws: 'sobol', shardSize: 5, signal: stop.signal },
		pool,
	);
	expect(provenance).toMatchObject({ partial: true, draws: { replicates: { asked: 8, finished: 2 } } });
	expect(Number.isInteger(passing.halfBus.estimate * 32)).toBe(true);
});
