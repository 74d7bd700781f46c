import type { CaseChoice, CaseFigures } from '../../shared/grades/result.ts';
import { verdict } from '../../shared/statistics/verdict.ts';

const nothing = { median: 1, q95: 2, medianInterval: null, q95Interval: null };

const choice = (passed: number, units: number): CaseChoice => ({
	passed,
	shortcomings: { lock: 0, torque: 0, angle: units - passed, rate: 0 },
	share: passed / units,
	low: verdict({ passed, failed: units - passed }, 0.9).low,
	high: 1,
	unitError: nothing,
	crossingsPerHour: 0,
	points: [],
});

/** A run's figures that were never simulated: so many of the drives pass with either choice. */
export const madeUpFigures = (halfBus: number, virtualNeutral: number, units = 100): CaseFigures => ({
	resultDigest: '',
	units: { asked: units, finished: units, failed: 0 },
	compensation: { halfBus: 0, virtualNeutral: 0 },
	choices: { halfBus: choice(halfBus, units), virtualNeutral: choice(virtualNeutral, units) },
});
