import { expect, test } from 'vitest';
import type { FigureDifference } from '../../../shared/results/figure-differences.ts';
import type { MadeAgain, Reproduction } from '../../../src/command-line/pack/reproduction.ts';
import { reproduceTable } from '../../../src/command-line/reproduce-table.ts';
import { textWidth, widthOf } from '../../../src/command-line/wrap-text.ts';

const made = (differences: readonly FigureDifference[], over: Partial<MadeAgain> = {}): MadeAgain => ({
	figures: 1200,
	differences,
	version: '0.2.0',
	points: ['slow', 'rated'],
	sameDrives: differences.length === 0,
	sameBytes: differences.length === 0,
	...over,
});

const table = (over: Partial<Reproduction>): string =>
	reproduceTable({
		format: 'anglespread-reproduction',
		formatVersion: 1,
		pack: { version: '0.1.0', scenario: '24 V fan', seed: 'demo', resultDigest: 'ab', files: 35 },
		node: '20.20.2',
		platform: 'linux x64',
		packed: made([]),
		current: null,
		isSameProgram: false,
		...over,
	});

const q95 = 'points[1].choices.halfBus.unitError.q95';

test('all alike: one sentence, and whether the files are so byte by byte', () => {
	const line = (packed: MadeAgain): string => table({ packed }).replaceAll(/\s+/g, ' ');
	expect(line(made([]))).toContain('All 1200 figures are the same, and the result files byte by byte.');
	expect(line(made([], { sameBytes: false, sameDrives: true }))).toContain('and so is every drive behind them.');
	expect(line(made([], { sameBytes: false, sameDrives: false }))).toContain('but not every drive behind them.');
});

test('what another program makes stands apart, with how many differences are slight and whether a verdict differs', () => {
	const rounding = [
		{ path: q95, first: 4, second: 4 * (1 + 2e-13) },
		{ path: 'points[0].paired.p', first: 0.0004, second: 0.00040000000001 },
	];
	const out = table({ current: made(rounding) }).replaceAll(/\s+/g, ' ');
	expect(out).toContain('All 1200 figures are the same');
	expect(out).toMatch(
		/With this program instead ─+ Version 0\.2\.0\. 2 of 1200 figures differ, each by less than 10⁻⁹ of its size\. No verdict differs\./,
	);
	expect(out).toContain('rated, half-bus unitError.q95 4 4 8.0');
	const large = table({ current: made([...rounding, { path: q95, first: 4, second: 4.1 }]) });
	expect(large.replaceAll(/\s+/g, ' ')).toContain('3 of 1200 figures differ, 2 by less than 10⁻⁹ of their size.');
	const decided = [{ path: 'verdict.halfBus.decision', first: 'holds', second: 'undecided' }];
	expect(table({ current: made(decided) })).toContain('1 of 1200 figures differ. A verdict differs.');
});

test('of 500 differences the 20 farthest are shown, 480 more counted, all within 80 columns', () => {
	const many = Array.from({ length: 500 }, (_, i) => ({
		path: `points[0].choices.virtualNeutral.unitFigures.risingFalling.quantiles[${i}].interval[0]`,
		first: -1.23456789e-4,
		second: -1.23456789e-4 * (1 + i * 1e-9),
	}));
	const out = table({ packed: made(many) });
	expect(out).toContain('and 480 more; --json FILE lists all');
	for (const line of out.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(textWidth);
	expect(out.match(/^….*interval\[0\]\s+−1\.234568e−4/gm)).toHaveLength(20);
});
