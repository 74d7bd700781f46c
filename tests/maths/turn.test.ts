import { expect, it } from 'vitest';
import { turnInPlace } from '../../shared/maths/turn.ts';

// Source: the engine's own Math functions, an independent implementation good to one unit of the last place.

function worst(from: number, to: number): number {
	const cells = new Float64Array(3);
	let most = 0;
	for (let angle = from; angle < to; angle *= 1.0037) {
		for (const x of [angle, -angle]) {
			cells[1] = x;
			turnInPlace(cells, 1);
			most = Math.max(most, Math.abs((cells[1] as number) - Math.cos(x)), Math.abs((cells[2] as number) - Math.sin(x)));
		}
	}
	expect(cells[0]).toBe(0); // its neighbours are left alone
	return most;
}

it('cosine and sine are good to the last place of 1 where one series serves, up to 0.1', () => {
	expect(worst(1e-12, 0.1)).toBeLessThanOrEqual(1.2e-16);
});

it('to two such places from the table, at either sign, up to 10⁴ rad', () => {
	expect(worst(0.1, 1e4)).toBeLessThanOrEqual(3.4e-16);
});

it('and as the library has them beyond', () => {
	expect(worst(1e4, 1e9)).toBeLessThanOrEqual(1.2e-16);
});
