import { expect, test } from 'vitest';
import { partSlotWords } from '../../shared/origins/slot-words.ts';
import { partSlots } from '../../shared/sampling/draw-parts.ts';

const words = (id: string): readonly string[] =>
	partSlots.flatMap((slot, place) => (slot.id === id ? [partSlotWords(place)] : []));

test('a part is named with its phase, a lot as common, and each of twelve drifts with its resistor', () => {
	expect(words('sensing.comparator.offset')).toEqual([
		'comparator offset, common',
		'comparator offset a',
		'comparator offset b',
		'comparator offset c',
	]);
	// a lone part has no lot beside it
	expect(new Set(words('sensing.halfBus.top')).size).toBe(1);
	const drifts = words('sensing.resistorCoefficient');
	expect(drifts).toHaveLength(13);
	expect(new Set(drifts).size).toBe(13);
	// MODEL.md, in the order in which boards are given them: dividers' tops and bottoms, bus divider, star
	expect([drifts[0], drifts[1], drifts[6], drifts[7], drifts[8], drifts[11], drifts[12]]).toEqual([
		'resistor drift, common',
		'drift of divider top a',
		'drift of divider bottom c',
		'drift of bus divider top',
		'drift of bus divider bottom',
		'drift of star c',
		'drift of star ground',
	]);
});
