import type { Provenance } from '../../shared/study/result.ts';

/** A provenance for records that tests put together by hand. */
export const provenance: Provenance = {
	version: '0',
	seed: 'test',
	scenario: 'test',
	scenarioDigest: '',
	resultDigest: '',
	units: { asked: 0, finished: 0, failed: 0 },
	partial: false,
	failures: [],
	compensation: { halfBus: 0, virtualNeutral: 0 },
	level: 0.95,
	methods: {},
	warnings: [],
};
