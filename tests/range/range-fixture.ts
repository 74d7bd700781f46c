import { choiceNames, type PerChoice } from '../../shared/drive/drive.ts';
import type { EnvelopeResult } from '../../shared/envelope/envelope-result.ts';
import type { RangeResult } from '../../shared/range/range-result.ts';
import { verdict } from '../../shared/statistics/verdict.ts';
import type { VariantChoice, VariantFigures } from '../../shared/variants/variant-figures.ts';
import { studyResult } from '../page/study-fixture.ts';

/* Invented results in the shape the engine gives, for tests of what is made of them. Their figures mean nothing. */

const figures = (median: number, q95: number, passed: number): VariantChoice => ({
	passed,
	verdict: verdict({ passed, failed: 200 - passed }, 0.95, 0.95),
	unitError: {
		median,
		q95,
		medianInterval: [0.95 * median, 1.05 * median],
		q95Interval: Number.isFinite(q95) ? [0.9 * q95, 1.15 * q95] : null,
	},
	crossingsPerHour: { counted: 0, computed: 1e-20 },
	points: [],
});

const both = (halfBus: VariantChoice, virtualNeutral: VariantChoice): VariantFigures => ({
	units: { asked: 200, finished: 200, failed: 0 },
	choices: { halfBus, virtualNeutral },
});

const end = (holds: number, fails: number) => ({
	fastest: 3000,
	holds,
	fails,
	decision: 'undecided' as const,
	turnedRound: 0,
});

/** Over speed: at 500 rpm 1 drive in 20 loses lock with half-bus; 820 rpm was looked at by the search. */
export const rangeResult = (over: Partial<RangeResult> = {}): RangeResult => {
	const { provenance, requirement } = studyResult();
	const at = (speed: number, halfBus: VariantChoice, virtualNeutral: VariantChoice, isSearched = false) => ({
		at: { 'operation.speed': speed },
		isSearched,
		compensation: provenance.compensation,
		...both(halfBus, virtualNeutral),
	});
	return {
		format: 'anglespread-range',
		formatVersion: 1,
		provenance,
		requirement,
		unitsPerValue: 200,
		axes: [{ id: 'operation.speed', name: 'speed', unit: 'rpm', spacing: 'logarithmic', values: [500, 1200, 3000] }],
		point: 'slow',
		load: 'square',
		values: [
			at(500, figures(9, Number.POSITIVE_INFINITY, 5), figures(6.6, 11, 47)),
			at(1200, figures(2.3, 3.3, 200), figures(2.8, 4.1, 199)),
			at(3000, figures(2.5, 3, 200), figures(2.6, 3.2, 200)),
			at(820, figures(3, 4.6, 198), figures(3.4, 5.6, 180), true),
		],
		slowest: [{ at: {}, resolution: 0.02, choices: { halfBus: end(820, 500), virtualNeutral: end(1200, 820) } }],
		sentence: 'Half-bus holds down to 820 rpm. This is an invented range.',
		...over,
	};
};

/** Three corners of one point with two ranged conditions. */
export const envelopeResult = (): EnvelopeResult => {
	const { provenance, requirement } = studyResult();
	const corner = (
		speed: 'low' | 'high',
		voltage: 'low' | 'high',
		halfBus: VariantChoice,
		virtualNeutral: VariantChoice,
	) => ({
		point: 'slow',
		limits: { 'operation.speed': speed, 'supply.voltage': voltage },
		conditions: { 'operation.speed': speed === 'low' ? 882 : 918, 'supply.voltage': voltage === 'low' ? 22.8 : 25.2 },
		isSearched: false,
		...both(halfBus, virtualNeutral),
	});
	return {
		format: 'anglespread-envelope',
		formatVersion: 1,
		provenance,
		requirement,
		unitsPerCombination: 200,
		possible: 4,
		thinned: null,
		combinations: [
			corner('low', 'low', figures(2.9, 4.2, 199), figures(3.3, 5.2, 188)),
			corner('low', 'high', figures(3, 4.4, 197), figures(3.4, 5.4, 180)),
			corner('high', 'low', figures(2.8, 4, 200), figures(3.1, 4.9, 195)),
		],
		worst: { halfBus: 1, virtualNeutral: 1 },
		everywhere: Object.fromEntries(
			choiceNames.map((choice) => [choice, { passed: 190, verdict: verdict({ passed: 190, failed: 10 }, 0.95) }]),
		) as unknown as PerChoice<EnvelopeResult['everywhere']['halfBus']>,
		sentence:
			'With half-bus sensing the worst is slow. With virtual neutral sensing the worst is slow. All 4 combinations of the limits of the conditions were run.',
	};
};
