import { expect, test } from 'vitest';
import { readRoute } from '../../src/page/model/route.ts';
import { worstLinks } from '../../src/page/model/worst-links.ts';
import { choiceFigures, pointResult } from './study-fixture.ts';

test('each choice’s worst drive has a link to the view that looks into it, a choice without drives has none', () => {
	const point = pointResult(
		'slow',
		900,
		{ halfBus: choiceFigures(0, 1), virtualNeutral: choiceFigures(0, 1, { worst: [] }) },
		'not shown',
	);
	const links = worstLinks(point, 2);
	expect(links.map(({ choice, words }) => [choice, words])).toEqual([['halfBus', 'drive 417 (lock lost)']]);
	expect(readRoute(links[0]?.link ?? '')).toEqual({ view: 'one-drive', details: { unit: '417', point: '2' } });
});
