import { describe, expect, it } from 'vitest';
import { choiceNames } from '../../shared/drive/drive.ts';
import { perChoice } from '../../shared/drive/per-choice.ts';
import { KeptReadings } from '../../shared/drive/sensing/kept-readings.ts';
import { simulatePair } from '../../shared/drive/simulate-pair.ts';
import { keyedNoise } from '../../shared/sampling/keyed-noise.ts';
import { unitDrives } from '../../shared/study/unit-drives.ts';
import { commutationRule } from '../../shared/votes/acceptances.ts';
import { judgeReadings } from '../../shared/votes/judge-readings.ts';
import { smallScenario } from '../study/small-scenario.ts';

const compensation = { halfBus: 40e-6, virtualNeutral: 40e-6 };
const settings = {
	plain: { noise: { sigma: '40 mV' } },
	'with hysteresis': { noise: { sigma: '40 mV' }, sensing: { comparator: { hysteresis: '50 mV' } } },
	'through a converter': { noise: { sigma: '40 mV' }, sensing: { converter: { bits: 10 } } },
	'in slow noise-free drives': { noise: { sigma: 0 } },
	'with ringing': { noise: { sigma: '20 mV', ringAmplitude: '0.5 V' } },
};

/** Of those tests that look at no angle error, degrees. */
const anyLimit = 5;

const sum = (values: ArrayLike<number>): number => Array.from(values).reduce((total, value) => total + value, 0);

/** Runs of three drives with their readings kept for noise up to 0.2 V and windows up to 7. */
function* runs(scenario: ReturnType<typeof smallScenario>) {
	for (let unit = 0; unit < 3; unit++) {
		for (const { drive, noise } of unitDrives({ scenario, seed: 'votes', compensation }, unit)) {
			const keep = perChoice(() => new KeptReadings(0.2, 7));
			yield { drive, noise, keep, pair: simulatePair(drive, noise, { chances: true, keep }) };
		}
	}
}

describe.each(Object.entries(settings))('kept readings, %s', (_, changes) => {
	const scenario = smallScenario(changes);

	it("the run's own filter and noise give the chances of the run, to rounding, and keeping moves no digit of it", () => {
		for (const { drive, noise, keep, pair } of runs(scenario)) {
			const { majorityVotes: votes, majorityWindow: window } = drive.detection;
			const margin = drive.trial.falseMargin / (6 * drive.motor.polePairs * drive.operation.speed);
			const alone = simulatePair(drive, noise, { chances: true });
			for (const choice of choiceNames) {
				const found = judgeReadings(keep[choice], {
					votes,
					window,
					sigma: drive.noise.sigma,
					laterBy: 0,
					margin,
					rule: commutationRule(drive, compensation[choice], anyLimit),
				});
				const { chances, errors, crossings } = pair[choice];
				for (const kind of ['early', 'late', 'missed'] as const) {
					expect(Math.abs(found[kind] - sum(chances?.[kind] ?? []))).toBeLessThan(1e-13);
					expect(alone[choice].chances?.[kind].map((chance) => (chance > 1e-29 ? chance : 0))).toEqual(
						chances?.[kind].map((chance) => (chance > 1e-29 ? chance : 0)),
					);
				}
				expect([alone[choice].errors, alone[choice].crossings]).toEqual([errors, crossings]);
			}
		}
	});

	it('every sector is accounted for under every filter: accepted and missed add up to the sectors', () => {
		for (const { drive, keep } of runs(scenario)) {
			const margin = drive.trial.falseMargin / (6 * drive.motor.polePairs * drive.operation.speed);
			for (const choice of choiceNames) {
				for (const [votes, window] of [
					[1, 1],
					[2, 3],
					[5, 5],
					[7, 7],
					[1, 7],
				] as const) {
					for (const sigma of [0, 0.02, 0.2]) {
						const rule = commutationRule(drive, compensation[choice], anyLimit);
						const found = judgeReadings(keep[choice], { votes, window, sigma, laterBy: 0, margin, rule });
						expect(found.within).toBeLessThanOrEqual(found.accepted + 1e-9);
						expect(found.accepted + found.missed).toBeCloseTo(keep[choice].sectors.length, 9);
						expect(found.early + found.late).toBeLessThanOrEqual(found.accepted + 1e-9);
					}
				}
			}
		}
	});
});

describe('filters on the same readings', () => {
	const [first] = runs(smallScenario(settings.plain));
	if (!first) throw new Error('no run');
	const { drive, keep } = first;
	const margin = drive.trial.falseMargin / (6 * drive.motor.polePairs * drive.operation.speed);
	const judged = (votes: number, window: number, sigma: number, laterBy = 0) =>
		judgeReadings(keep.halfBus, {
			votes,
			window,
			sigma,
			laterBy,
			margin,
			rule: commutationRule(drive, compensation.halfBus + laterBy, anyLimit),
		});

	it('without noise K votes in a row come K − 1 readings after one vote', () => {
		const lateness = (votes: number): number => judged(votes, votes, 0).lateness;
		const period = 1 / drive.inverter.pwmFrequency;
		const sectors = keep.halfBus.sectors.length;
		expect(lateness(3) - lateness(1)).toBeCloseTo(2 * period * sectors, 6);
	});

	it('a longer compensation makes the same acceptance earlier by itself', () => {
		const later = judged(2, 3, 0.02, 10e-6);
		const asRun = judged(2, 3, 0.02);
		expect(asRun.lateness - later.lateness).toBeCloseTo(10e-6 * asRun.accepted, 12);
	});

	it('of a window, more votes make early crossings rarer', () => {
		const early = [1, 2, 3, 4, 5].map((votes) => judged(votes, 5, 0.1).early);
		expect(early).toEqual([...early].sort((one, other) => other - one));
		expect(early[0]).toBeGreaterThan(2 * (early[2] as number));
	});
});

describe('the share of commutations within an angle limit', () => {
	it('is the share counted where nothing is left to chance', () => {
		// intervals of the first sector measured began before it
		const scenario = smallScenario({ noise: { sigma: 0 }, detection: { intervalsAveraged: 1 } });
		const seen = new Set<number>();
		for (const { drive, keep, pair } of runs(scenario)) {
			const { majorityVotes: votes, majorityWindow: window } = drive.detection;
			for (const choice of choiceNames) {
				const errors = Array.from(pair[choice].errors, Math.abs).sort((one, other) => one - other);
				for (const place of [2, 5, 9]) {
					// between two errors
					const limit = ((errors[place - 1] as number) + (errors[place] as number)) / 2;
					const { within } = judgeReadings(keep[choice], {
						votes,
						window,
						sigma: 0,
						laterBy: 0,
						margin: 1,
						rule: commutationRule(drive, compensation[choice], limit),
					});
					const counted = pair[choice].errors.slice(1).filter((error) => Math.abs(error) <= limit).length;
					const first = within - counted;
					expect(Math.min(Math.abs(first), Math.abs(first - 1))).toBeLessThan(1e-9);
					seen.add(counted);
				}
			}
		}
		expect(seen.size).toBeGreaterThan(3);
	});

	it('under another filter is that of runs with it, over many streams of noise', () => {
		// noise that spreads acceptances over several readings; three of five come about a reading later than two of three
		const scenario = smallScenario({
			noise: { sigma: '100 mV' },
			trial: { starts: 1, warmup: 6, settle: 6, measured: 48 },
		});
		const streams = 60;
		const limit = 3;
		const compensated = 120e-6;
		const differences: number[] = [];
		for (const { drive, keep } of runs(scenario)) {
			const other = {
				...drive,
				detection: {
					...drive.detection,
					majorityVotes: 3,
					majorityWindow: 5,
					compensation: perChoice(() => compensated),
				},
			};
			const simulated = { halfBus: 0, virtualNeutral: 0 };
			for (let stream = 0; stream < streams; stream++) {
				const pair = simulatePair(other, keyedNoise(`stream ${stream}`).forRun(0, 0, 0));
				for (const choice of choiceNames) {
					const { errors, measured } = pair[choice];
					simulated[choice] += errors.filter((error) => Math.abs(error) <= limit).length / measured / streams;
				}
			}
			for (const choice of choiceNames) {
				const { within } = judgeReadings(keep[choice], {
					votes: 3,
					window: 5,
					sigma: drive.noise.sigma,
					laterBy: compensated - compensation[choice],
					margin: 1,
					rule: commutationRule(drive, compensated, limit),
				});
				expect(simulated[choice]).toBeGreaterThan(0.5);
				expect(simulated[choice]).toBeLessThan(0.8);
				differences.push(Math.abs(within / keep[choice].sectors.length - simulated[choice]));
			}
		}
		// standard errors of the simulated shares are 0.003 to 0.006; what is left is the waveform's other commutations
		expect(differences).toHaveLength(12);
		expect(Math.max(...differences)).toBeLessThan(0.03);
		expect(sum(differences) / differences.length).toBeLessThan(0.01);
	});
});
