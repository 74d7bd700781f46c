import { expect, it } from 'vitest';
import { philox } from '../../shared/maths/philox.ts';

type Words = readonly [number, number, number, number];

// Known answers published with Philox4x32-10 (Salmon et al. 2011): the zero vector seen quoted, all recomputed
it.each<[string, Words, readonly [number, number], string]>([
	['zeros', [0, 0, 0, 0], [0, 0], '6627e8d5 e169c58d bc57ac4c 9b00dbd8'],
	['ones', [-1, -1, -1, -1], [-1, -1], '408f276d 41c83b0e a20bc7c6 6d5451fd'],
	[
		'the digits of π',
		[0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344],
		[0xa4093822, 0x299f31d0],
		'd16cfe09 94fdcceb 5001e420 24126ea1',
	],
])('Philox4x32-10 of %s gives the published words', (_, counter, key, words) => {
	const out = new Uint32Array(4);
	philox(out, ...counter, ...key);
	expect([...out].map((word) => word.toString(16).padStart(8, '0')).join(' ')).toBe(words);
});
