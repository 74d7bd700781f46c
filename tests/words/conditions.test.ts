import { expect, test } from 'vitest';
import { conditionWords } from '../../shared/words/conditions.ts';

test('conditions are told with the ranges that they are swept through, where these are given', () => {
	const point = { conditions: { 'operation.speed': 900, 'operation.torque': 0.009, 'supply.voltage': 24 } };
	const ranges = {
		'operation.speed': { scale: 'relative', halfWidth: 0.02 },
		'supply.voltage': { scale: 'absolute', halfWidth: 2 },
	} as const;
	const said = (of: ReturnType<typeof conditionWords>): string[] =>
		of.all.map(({ value }) => value.replaceAll('\u00a0', ' '));
	expect(said(conditionWords(point, ranges))).toEqual(['900 rpm ± 2 %', '9 mN·m', '24 V ± 2 V']);
	expect(said(conditionWords(point))).toEqual(['900 rpm', '9 mN·m', '24 V']);
});
