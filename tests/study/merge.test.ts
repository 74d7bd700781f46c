import { expect, test } from 'vitest';
import { begunUnits, emptyStudy, pendingStretches, unitStates } from '../../shared/study/merge.ts';

test('units that nothing has become of are told as stretches without a gap, within what is asked about', () => {
	const study = emptyStudy(10, 1);
	study.states[2] = unitStates.finished;
	study.states[6] = unitStates.failed;
	expect(pendingStretches(study, 0, 10)).toEqual([
		{ from: 0, to: 2 },
		{ from: 3, to: 6 },
		{ from: 7, to: 10 },
	]);
	expect(pendingStretches(study, 4, 6)).toEqual([{ from: 4, to: 6 }]);
	expect(pendingStretches(study, 2, 3)).toEqual([]);
	expect(begunUnits(study)).toBe(7);
});
