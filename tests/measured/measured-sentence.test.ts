import { expect, test } from 'vitest';
import type { MeasuredAgainst, MeasuredResult } from '../../shared/measured/measured-result.ts';
import { measuredSentence } from '../../shared/measured/measured-sentence.ts';

const figures = { drives: 3, quantiles: {}, spread: 1.6, serial: 0 };
const found = (shape: number, spreads: number): MeasuredAgainst => ({
	figures: { ...figures, spread: 2.6 },
	lost: 0,
	shape: { d: 0.126, at: 58, p: shape, chance: 0.156 },
	spreads: { d: 0.9, p: spreads },
	differs: Math.min(shape, spreads) < 0.025,
});
const said = (halfBus: MeasuredAgainst | null, drives = 3): string =>
	measuredSentence({
		log: { figures: { ...figures, drives } },
		point: 'slow',
		choices: { halfBus, virtualNeutral: null },
		provenance: { level: 0.95 },
	} as unknown as MeasuredResult);

test('a difference is laid to the test that shows it, and to no other', () => {
	expect(said(found(0.134, 0.018))).toContain(
		'Half-bus: measured and predicted intervals differ, by how widely each drive spreads (spread within a drive 1.60° measured, 2.60° predicted).',
	);
	expect(said(found(0.01, 0.4))).toContain(
		'differ, by their distribution, largest difference of shares 12.6\u00a0% (spread',
	);
	expect(said(found(0.01, 0.01))).toContain('12.6\u00a0%, and by how widely each drive spreads (');
	expect(said(found(0.1, 0.1))).toContain('no difference is shown');
	expect(said(null)).toMatch(/^The sector intervals of 3 measured drives against those predicted at slow\. /);
	expect(said(null, 1)).toMatch(/^The sector intervals of one measured drive against/);
	expect(said(null)).toContain('With half-bus every simulated drive lost lock');
});
