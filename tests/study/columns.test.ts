import { expect, test } from 'vitest';
import { emptyColumns } from '../../shared/study/columns.ts';

test.each([255, 256, 65_535, 65_536, 4_294_967_295])('a count that may reach %i holds %i', (most) => {
	const { early } = emptyColumns(1, most);
	early[0] = most;
	expect(early[0]).toBe(most);
});
