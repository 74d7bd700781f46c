import { expect, test } from 'vitest';
import { sentences } from '../../src/page/model/sentences.ts';

test('figures with points in them do not end the leading sentence', () => {
	expect(sentences('Better by 0.38° (95 % interval 0.30° to 0.47°). Lock was lost in 3 runs. More.')).toEqual({
		lead: 'Better by 0.38° (95 % interval 0.30° to 0.47°).',
		rest: 'Lock was lost in 3 runs. More.',
	});
	expect(sentences('Only one.')).toEqual({ lead: 'Only one.', rest: '' });
});
