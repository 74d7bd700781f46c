import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { choiceNames, type PerChoice } from '../../shared/drive/drive.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { keyedNoise } from '../../shared/sampling/keyed-noise.ts';
import { clopperPearson } from '../../shared/statistics/clopper-pearson.ts';
import { Moments } from '../../shared/statistics/moments.ts';
import { driveWith } from './drives.ts';
import { countReruns, events, type PerEvent, rerunCases, watchReruns } from './rerun-cases.ts';

/**
 * The computed chances of one sector against re-runs of the same sector with
 * fresh noise. The full count is kept in chances.json; run with RERUNS=full to
 * count anew (ten minutes).
 */
const file = new URL('chances.json', import.meta.url);
const replicates = 100_000;
const shortRun = 200;
const isFull = process.env.RERUNS === 'full';

interface Entry {
	readonly counts: PerChoice<PerEvent>;
	readonly first: PerChoice<PerEvent>;
}
const committed: Record<string, Entry> = isFull ? {} : JSON.parse(readFileSync(file, 'utf8'));

// only there when asked for: a skipped test would count as failed
if (isFull)
	describe('full count', () => {
		it('writes chances.json', { timeout: 3_600_000 }, () => {
			const entries = rerunCases.map((one) => [
				one.name,
				{ counts: countReruns(one, replicates), first: countReruns(one, shortRun) },
			]);
			writeFileSync(file, `${JSON.stringify(Object.fromEntries(entries), null, '\t')}\n`);
			expect(entries.length).toBe(rerunCases.length);
		});
	});

/** Three standard errors of a count; the exact limits of the same level where fewer than ten are expected. */
function agrees(seen: number, chance: number, trials: number): boolean {
	const fewest = trials * Math.min(chance, 1 - chance);
	if (fewest >= 10) return Math.abs(seen - trials * chance) <= 3 * Math.sqrt(trials * chance * (1 - chance));
	const { low, high } = clopperPearson(seen, trials, 0.9973);
	return low <= chance + 1e-12 && chance - 1e-12 <= high;
}

describe.skipIf(isFull)('chances of one sector', () => {
	it('every case was re-run 100,000 times, and no other', () => {
		expect(Object.keys(committed)).toEqual(rerunCases.map(({ name }) => name));
	});

	const watchedRuns = new Map(isFull ? [] : rerunCases.map((one) => [one.name, watchReruns(one, shortRun)]));

	describe.each(rerunCases.map(({ name }) => name))('%s', (name) => {
		const watched = watchedRuns.get(name) ?? [];
		const { counts, first } = committed[name] as Entry;

		it(`the first ${shortRun} re-runs end as committed`, () => {
			for (const choice of choiceNames) {
				for (const event of events) {
					const seen = watched.filter((run) => run[choice].outcome === event).length;
					expect(seen, `${choice} ${event}`).toBe(first[choice][event]);
				}
			}
		});

		it('early, late and missed agree with 100,000 re-runs within 3 standard errors', () => {
			for (const choice of choiceNames) {
				for (const event of events) {
					const chance = watched[0]?.[choice].chances[event] ?? Number.NaN;
					const seen = counts[choice][event];
					expect(agrees(seen, chance, replicates), `${choice} ${event}: ${seen}, computed ${chance}`).toBe(true);
				}
			}
		});

		it('they are the same to 10⁻¹⁰ whatever became of the sector that time', () => {
			for (const choice of choiceNames) {
				const expected = watched[0]?.[choice].chances as PerEvent;
				for (const run of watched) {
					for (const event of events)
						expect(Math.abs(run[choice].chances[event] - expected[event])).toBeLessThan(1e-10);
				}
			}
		});
	});

	it('among the re-runs watched are sectors accepted early, in time and late, and missed ones', () => {
		const seen = new Set(
			[...watchedRuns.values()].flatMap((runs) => runs.flatMap((run) => choiceNames.map((c) => run[c].outcome))),
		);
		expect([...seen].sort()).toEqual(['early', 'late', 'missed', 'within']);
	});

	it('100,000 re-runs hold chances from 10⁻³ to 0.99, each event with some in between', () => {
		for (const event of events) {
			const between = Object.values(committed).flatMap(({ counts }) =>
				choiceNames
					.map((choice) => counts[choice][event] / replicates)
					.filter((share) => share > 1e-3 && share < 0.995),
			);
			expect(between.length, event).toBeGreaterThan(0);
		}
	});
});

/**
 * Rates that counting can see. Each sector's chance is the conditional
 * expectation of its event given the past, so that the differences are
 * uncorrelated and their sum has variance Σp(1 − p).
 */
describe.skipIf(isFull)('counted and computed rates of the same sectors', () => {
	const cases = [
		{ window: 1, votes: 1, sigma: 0.06, rate: [1e-3, 1e-2] },
		{ window: 1, votes: 1, sigma: 0.11, rate: [1e-2, 1e-1] },
		{ window: 3, votes: 2, sigma: 0.12, rate: [1e-3, 1e-2] },
		{ window: 3, votes: 2, sigma: 0.2, rate: [1e-2, 1e-1] },
		{ window: 5, votes: 3, sigma: 0.2, rate: [1e-2, 1e-1] },
		{ window: 6, votes: 4, sigma: 0.15, rate: [1e-2, 1e-1] },
	] as const;
	const runs = 16;
	it.each(cases)('W $window, K $votes, σ $sigma V: within 3 standard errors, and computing is the steadier', (one) => {
		const noise = keyedNoise('rates');
		const sums = choiceNames.map(() => ({ seen: 0, expected: 0, variance: 0, sectors: 0 }));
		const counted = choiceNames.map(() => new Moments());
		const computed = choiceNames.map(() => new Moments());
		for (let start = 0; start < runs; start++) {
			const drive = driveWith(
				{
					'operation.speed': 2000,
					'operation.torque': 0.044,
					'detection.compensation': 75e-6,
					'detection.majorityWindow': one.window,
					'detection.majorityVotes': one.votes,
					'noise.sigma': one.sigma,
					'trial.measured': 120,
				},
				{ pwmPhase: (start + 0.5) / runs },
			);
			const pair = simulatePair(drive, noise.forRun(one.window, one.votes, start), { chances: true });
			for (const [c, choice] of choiceNames.entries()) {
				const { measured, crossings, chances } = pair[choice];
				const own = sums[c] as (typeof sums)[number];
				let [seen, expected] = [0, 0];
				for (let j = 0; j < measured; j++) {
					const chance = events.reduce((sum, event) => sum + (chances?.[event][j] ?? Number.NaN), 0);
					// a missed crossing's error is NaN
					if (!(Math.abs(crossings[j] as number) <= drive.trial.falseMargin)) seen++;
					expected += chance;
					own.variance += chance * (1 - chance);
				}
				own.seen += seen;
				own.expected += expected;
				own.sectors += measured;
				counted[c]?.add(seen / measured);
				computed[c]?.add(expected / measured);
			}
		}
		for (const [c, choice] of choiceNames.entries()) {
			const { seen, expected, variance, sectors } = sums[c] as (typeof sums)[number];
			const gain = (counted[c]?.variance ?? 0) / (computed[c]?.variance ?? 0);
			const words = `${choice}: ${seen} seen, ${expected.toFixed(2)} computed in ${sectors} sectors, gain ${gain.toFixed(0)}`;
			if (process.env.SHOW) console.log(words);
			expect(Math.abs(seen - expected), words).toBeLessThan(3 * Math.sqrt(variance));
			if (choice !== 'virtualNeutral') continue; // whose rate is in the range that counting sees
			expect(expected / sectors, words).toBeGreaterThan(one.rate[0]);
			expect(expected / sectors, words).toBeLessThan(one.rate[1]);
			expect(gain, words).toBeGreaterThan(1);
		}
	});
});
