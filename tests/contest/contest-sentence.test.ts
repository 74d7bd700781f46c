import { expect, test } from 'vitest';
import type { CellFigures, ContestCell, ContestResult } from '../../shared/contest/contest-result.ts';
import { contestSentence, type MapProgress } from '../../shared/contest/contest-sentence.ts';
import { studyResult } from '../page/study-fixture.ts';

const cell = (speed: number, better: CellFigures['better'], finished = 40, failed = 0): ContestCell => ({
	at: { 'operation.speed': speed, 'operation.torque': 0.05 },
	leftOut: null,
	figures: {
		units: { finished, failed },
		smaller: { halfBus: 20, virtualNeutral: 20 },
		ties: 0,
		share: { low: 0.4, high: 0.6 },
		better,
		medianDifference: 0,
		choices: {
			halfBus: { medianError: 1, passed: finished, decision: 'undecided' },
			virtualNeutral: { medianError: 1, passed: finished, decision: 'undecided' },
		},
	},
});
const waiting: ContestCell = { ...cell(900, 'not shown'), figures: null };
const leftOut: ContestCell = { ...waiting, leftOut: 'the load line leads too far' };

function sentence(cells: readonly ContestCell[], is: MapProgress): string {
	const { provenance, requirement } = studyResult();
	const axis = { unit: 'rpm', spacing: 'linear', values: [] } as const;
	const map: Omit<ContestResult, 'sentence'> = {
		format: 'anglespread-contest',
		formatVersion: 1,
		provenance,
		requirement,
		point: 'slow',
		speed: { ...axis, id: 'operation.speed', name: 'speed' },
		torque: { ...axis, id: 'operation.torque', name: 'load torque' },
		unitsAtMost: 40,
		cells,
	};
	return contestSentence(map, is).replaceAll('\u00a0', ' ');
}

test('one decided pair is, two are; drives that could not be simulated count among the 40 that a pair takes', () => {
	expect(sentence([cell(600, 'halfBus'), waiting], 'so far')).toMatch(
		/^So far 1 of 2 pairs of speed and torque is decided: half-bus is better at 1 \(600 rpm\); .*; 1 is still being worked on, with up to 40 drives each /,
	);
	expect(sentence([cell(600, 'halfBus'), cell(900, 'halfBus')], 'so far')).toMatch(
		/^So far 2 of 2 pairs of speed and torque are decided: half-bus is better at 2 \(600 rpm to 900 rpm\); /,
	);
	expect(sentence([cell(600, 'not shown', 30, 10), cell(900, 'not shown', 30, 9)], 'so far')).toMatch(
		/^So far none of 2 pairs of speed and torque is decided; at 1 neither is shown to be better with 40 drives; 1 is still being worked on/,
	);
});

test('pairs without a finished drive are those that could not be simulated once the map is at its end, and not before', () => {
	const cells = [cell(600, 'halfBus'), waiting, leftOut];
	expect(sentence(cells, 'finished')).toContain(' 2 further pairs could not be simulated.');
	expect(sentence(cells, 'stopped')).toMatch(
		/^The run was stopped with 1 of 2 pairs of speed and torque decided: .*; 1 was not worked on to its end .* 1 further pair could not be simulated\.$/,
	);
	expect(sentence([leftOut, leftOut], 'finished')).toBe(
		'None of these speeds and torques can be simulated: nothing is shown.',
	);
});
