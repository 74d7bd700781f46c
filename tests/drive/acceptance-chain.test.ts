import { describe, expect, it, test } from 'vitest';
import { AcceptanceChain, upperTail } from '../../shared/drive/sensing/acceptance-chain.ts';
import { stream } from '../../shared/sampling/stream.ts';

/** One reading: chance of "crossed" after a vote "not crossed" and after a vote "crossed". */
interface Reading {
	readonly fromNot: number;
	readonly fromCrossed: number;
	readonly timing: -1 | 0 | 1;
}

interface Outcome {
	readonly early: number;
	readonly within: number;
	readonly late: number;
	readonly waiting: number;
}

/** What the chain says. */
function followed(readings: readonly Reading[], window: number, votes: number): Outcome {
	const chain = new AcceptanceChain();
	chain.load(window, votes);
	chain.open();
	for (const { fromNot, fromCrossed, timing } of readings) {
		Object.assign(chain, { fromNot, notFromNot: 1 - fromNot, fromCrossed, notFromCrossed: 1 - fromCrossed });
		chain.step(timing);
	}
	const { early, within, late, waiting } = chain;
	return { early, within, late, waiting };
}

/** Every pattern of votes written out, each with its probability, and judged by the rule of the filter as MODEL.md words it. */
function enumerated(readings: readonly Reading[], window: number, votes: number): Outcome {
	const sums = { early: 0, within: 0, late: 0, waiting: 0 };
	for (let pattern = 0; pattern < 2 ** readings.length; pattern++) {
		const cast = readings.map((_, i) => ((pattern >> i) & 1) === 1);
		let probability = 1;
		readings.forEach(({ fromNot, fromCrossed }, i) => {
			const chance = i > 0 && cast[i - 1] ? fromCrossed : fromNot;
			probability *= cast[i] ? chance : 1 - chance;
		});
		const accepted = cast.findIndex(
			(_, i) => cast.slice(Math.max(0, i - window + 1), i + 1).filter(Boolean).length >= votes,
		);
		const timing = readings[accepted]?.timing;
		sums[timing === undefined ? 'waiting' : timing < 0 ? 'early' : timing > 0 ? 'late' : 'within'] += probability;
	}
	return sums;
}

/** Readings that drift from "not crossed" to "crossed"; under hysteresis a vote "crossed" makes the next one likelier. */
function drifting(length: number, hysteresis: number, seed: string): Reading[] {
	const { double } = stream(seed, 'readings');
	return Array.from({ length }, (_, i) => {
		const input = -1.5 + (3 * i) / length + 0.8 * (double() - 0.5);
		return {
			fromNot: upperTail(hysteresis / 2 - input),
			fromCrossed: upperTail(-hysteresis / 2 - input),
			timing: i < length / 3 ? -1 : i < (2 * length) / 3 ? 0 : 1,
		};
	});
}

describe('the chain against all 2ⁿ patterns of votes', () => {
	const filters = [
		[1, 1],
		[2, 1],
		[2, 2],
		[3, 1],
		[3, 2],
		[3, 3],
		[5, 3],
		[6, 4],
		[7, 7],
		[11, 6],
		[11, 1],
	] as const;
	for (const hysteresis of [0, 1.3]) {
		it.each(filters)(`W = %i, K = %i, hysteresis of ${hysteresis} σ: 14 readings agree to 10⁻¹³`, (window, votes) => {
			const readings = drifting(14, hysteresis, `${window} ${votes}`);
			const chain = followed(readings, window, votes);
			const truth = enumerated(readings, window, votes);
			for (const key of ['early', 'within', 'late', 'waiting'] as const) {
				expect(Math.abs(chain[key] - truth[key])).toBeLessThan(1e-13);
			}
			expect(chain.early + chain.within + chain.late + chain.waiting).toBeCloseTo(1, 13);
		});
	}

	it('fewer readings than the window: 4 readings under W = 9, K = 3', () => {
		const readings = drifting(4, 0.7, 'short');
		const [chain, truth] = [followed(readings, 9, 3), enumerated(readings, 9, 3)];
		expect(chain.early).toBeCloseTo(truth.early, 14);
		expect(chain.within).toBeCloseTo(truth.within, 14);
		expect(chain.late).toBeCloseTo(truth.late, 14);
		expect(chain.waiting).toBeCloseTo(truth.waiting, 14);
	});
});

test('n readings with K = W = 1 miss with (1 − p)ⁿ: 20 of p = 10⁻³ with 0.98018', () => {
	const readings = Array.from({ length: 20 }, (): Reading => ({ fromNot: 1e-3, fromCrossed: 1e-3, timing: -1 }));
	expect(followed(readings, 1, 1).waiting).toBeCloseTo(0.999 ** 20, 14);
});

test('two of three in two readings of p = 10⁻⁹ are accepted with 10⁻¹⁸, to 15 digits', () => {
	const readings = Array.from({ length: 2 }, (): Reading => ({ fromNot: 1e-9, fromCrossed: 1e-9, timing: -1 }));
	expect(Math.abs(followed(readings, 3, 2).early / 1e-18 - 1)).toBeLessThan(1e-15);
});

const surelyCrossed = { fromNot: 1, notFromNot: 0, fromCrossed: 1, notFromCrossed: 0 };

test('a sector opened anew has forgotten the one before', () => {
	const chain = new AcceptanceChain();
	chain.load(3, 2);
	chain.open();
	Object.assign(chain, surelyCrossed);
	chain.step(-1);
	chain.open();
	Object.assign(chain, surelyCrossed);
	chain.step(-1);
	expect([chain.early, chain.waiting]).toEqual([0, 1]);
});

test('upper tails of the normal distribution at 1.959964, 6 and 20 σ', () => {
	// 0.025 by definition of the 97.5 % quantile; 9.8659e-10 and 2.7536e-89: tables of the normal distribution, from memory, recomputed with 50 digits
	expect(upperTail(1.959963984540054)).toBeCloseTo(0.025, 15);
	expect(Math.abs(upperTail(6) / 9.865876450376981e-10 - 1)).toBeLessThan(1e-12);
	expect(Math.abs(upperTail(20) / 2.7536241186062337e-89 - 1)).toBeLessThan(1e-12);
	expect(upperTail(-20)).toBe(1);
});
