import { expect, test, vi } from 'vitest';
import { choiceNames } from '../../shared/drive/drive.ts';
import { mergeShard, type StudyColumns } from '../../shared/study/merge.ts';
import { runShard } from '../../shared/study/run-shard.ts';
import { variantFigures } from '../../shared/variants/variant-figures.ts';
import { isSameFilter } from '../../shared/votes/cell.ts';
import { columnsWithoutHistograms } from '../../src/host/run-variants.ts';
import { ownFilter, runVotesInPool } from '../../src/host/run-votes.ts';
import { inlinePool } from '../grades/inline-pool.ts';
import { smallScenario } from '../study/small-scenario.ts';

vi.setConfig({ testTimeout: 120_000 });

// noise that makes a wrong crossing in one of some hundred sectors, so that full runs can be held against the plane
const scenario = smallScenario({
	noise: { sigma: '150 mV' },
	detection: { compensation: '40 µs', majorityWindow: 3, majorityVotes: 2 },
	requirement: { angleLimit: '60°', crossingsPerHour: 1e6, share: 0.5, confidence: 0.9 },
});
const units = 60;
const filters = [
	{ votes: 1, window: 1 },
	{ votes: 2, window: 3 },
	{ votes: 3, window: 5 },
];
const request = { scenario, seed: 'plane', units, filters, sigmas: [0.1, 0.15] };
const plane = await runVotesInPool(request, inlinePool());

/** The same drives, moments and noise, simulated in full with another filter and noise. */
function full(filter: { votes: number; window: number }, sigma: number, of = { scenario, plane }): StudyColumns {
	const { scenario, plane } = of;
	const values = {
		...scenario.values,
		'detection.majorityVotes': filter.votes,
		'detection.majorityWindow': filter.window,
		'noise.sigma': sigma,
	};
	const study = columnsWithoutHistograms(scenario, units);
	mergeShard(
		study,
		runShard(
			{ scenario: { ...scenario, values }, seed: 'plane', compensation: plane.provenance.compensation },
			0,
			units,
		),
	);
	return study;
}

const cellOf = (choice: 'halfBus' | 'virtualNeutral', filter: { votes: number; window: number }, sigma: number) => {
	const cell = plane.choices[choice].cells.find((one) => isSameFilter(one, filter) && one.sigma === sigma);
	if (!cell) throw new Error('no such cell');
	return cell;
};

test("the cell of the scenario's own filter and noise has the rates of the study to rounding, and where no angle fails the same drives pass", () => {
	const own = ownFilter(scenario);
	const study = variantFigures(scenario, full(own, own.sigma));
	for (const choice of choiceNames) {
		const { crossingsPerHour, passing } = cellOf(choice, own, own.sigma);
		const { crossingsPerHour: simulated, passed } = study.choices[choice];
		expect(crossingsPerHour.all / (simulated.computed as number)).toBeCloseTo(1, 12);
		expect(passing).toBe(passed);
		expect(crossingsPerHour.early + crossingsPerHour.late + crossingsPerHour.missed).toBeCloseTo(
			crossingsPerHour.all,
			6,
		);
	}
});

test.each([
	[{ votes: 1, window: 1 }, 0.15],
	[{ votes: 3, window: 5 }, 0.15],
	[{ votes: 2, window: 3 }, 0.1],
] as const)('full runs with %o at %d V agree within 3 standard errors over drives', (filter, sigma) => {
	const study = full(filter, sigma);
	const own = full(ownFilter(scenario), 0.15);
	const cells = scenario.points.length * choiceNames.length;
	for (const [c, choice] of choiceNames.entries()) {
		/** Wrong crossings a sector to be expected of each drive, all points. */
		const rates = (of: StudyColumns): number[] =>
			Array.from({ length: units }, (_, unit) => {
				let chances = 0;
				let sectors = 0;
				for (let point = 0; point < scenario.points.length; point++) {
					const at = unit * cells + point * choiceNames.length + c;
					for (const kind of ['earlyChance', 'lateChance', 'missedChance'] as const)
						chances += of.columns[kind][at] as number;
					sectors += of.columns.sectors[at] as number;
				}
				return chances / sectors;
			});
		const simulated = rates(study);
		const mean = simulated.reduce((sum, rate) => sum + rate, 0) / units;
		const deviation = Math.sqrt(simulated.reduce((sum, rate) => sum + (rate - mean) ** 2, 0) / (units - 1));
		const perHour = variantFigures(scenario, study).choices[choice].crossingsPerHour.computed as number;
		const error = (perHour / mean) * (deviation / Math.sqrt(units));
		const { crossingsPerHour } = cellOf(choice, filter, sigma);
		expect(Math.abs(crossingsPerHour.all - perHour)).toBeLessThan(3 * error);
		// and the check can tell this cell from the one the plane was simulated with
		const stated = variantFigures(scenario, own).choices[choice].crossingsPerHour.computed as number;
		expect(Math.abs(stated - perHour)).toBeGreaterThan(3 * error);
	}
});

test('as many drives keep the angle limit with other filters as full runs count, within a tenth of them', async () => {
	// readings a period apart, 7.2° here, and one delay taken off for all: single votes come early, three of five late
	const scenario = smallScenario({
		noise: { sigma: '100 mV' },
		detection: { compensation: '80 µs', majorityWindow: 3, majorityVotes: 2 },
		requirement: { angleLimit: '10°', quantile: 0.8, crossingsPerHour: 1e8, share: 0.5, confidence: 0.9 },
	});
	const sigmas = [0.05, 0.1];
	const plane = await runVotesInPool({ scenario, seed: 'plane', units, filters, sigmas }, inlinePool());
	for (const choice of choiceNames) {
		const passing = filters.map(() => 0);
		for (const { sigma, ...cell } of plane.choices[choice].cells) {
			const { passed } = variantFigures(scenario, full(cell, sigma, { scenario, plane })).choices[choice];
			expect(Math.abs(cell.passing - passed)).toBeLessThanOrEqual(units / 10);
			const place = filters.findIndex((filter) => isSameFilter(filter, cell));
			passing[place] = (passing[place] as number) + cell.passing / sigmas.length;
		}
		const [single, own, three] = passing as [number, number, number];
		expect(own).toBeGreaterThan(45);
		expect(Math.max(single, three)).toBeLessThan(15);
	}
});

test('finalists are simulated in full on fresh drives, the filter stated first, and named in the sentence', () => {
	expect(plane.confirmationSeed).not.toBe(plane.provenance.seed);
	for (const choice of choiceNames) {
		const { finalists } = plane.choices[choice];
		expect(finalists[0]).toMatchObject({ votes: 2, window: 3, reasons: expect.arrayContaining(['as stated']) });
		for (const { confirmed } of finalists) expect(confirmed?.verdict.share).toBeGreaterThanOrEqual(0);
		const best = finalists.find(({ reasons }) => reasons.includes('most drives pass'));
		expect(plane.sentence).toContain(`${best?.votes} of ${best?.window}`);
	}
	expect(plane.tighter).toMatchObject({ words: expect.stringMatching(/% → /), judged: units });
	expect(plane.provenance.units.asked).toBe(
		units *
			(2 +
				new Set(
					choiceNames.flatMap((choice) =>
						plane.choices[choice].finalists.map(({ votes, window }) => votes * 20 + window),
					),
				).size),
	);
});

test('no figure depends on how the drives are shared out', async () => {
	const small = { ...request, units: 7 };
	const one = await runVotesInPool(small, inlinePool());
	const other = await runVotesInPool({ ...small, shardSize: 3 }, inlinePool());
	expect(other).toEqual(one);
});

test('drives whose worker failed are counted and in no figure; all of them failing says so', async () => {
	const pool = inlinePool({
		before(name, from) {
			if (name === 'unitsOfVotes' && from === 0) throw new Error('broken');
		},
	});
	const some = await runVotesInPool({ ...request, units: 8, shardSize: 2 }, pool);
	expect(some.judged).toBe(6);
	// the same shard of both planes, with the stated resistors and with tighter ones
	expect(some.provenance.units.failed).toBe(4);
	expect(some.provenance.failures.map(({ unit }) => unit)).toEqual([0, 1, 0, 1]);
	const none = await runVotesInPool(
		{ ...request, units: 2 },
		inlinePool({
			before: () => {
				throw new Error('broken');
			},
		}),
	);
	expect(none.sentence).toMatch(/^None of the \d+ drives was finished/);
});
