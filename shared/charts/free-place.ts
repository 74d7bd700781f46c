/** A point of a curve: share of the picture's width, and value on its scale. */
export type CurvePoint = readonly [x: number, y: number];

export interface Box {
	/** Share of the picture's width. */
	readonly width: number;
	readonly low: number;
	readonly high: number;
}

/** Places tried along the picture's width. */
const steps = 20;

/**
 * Where along a picture's width words of a given box stand on the fewest lines: the first such place from the left or
 * the right, as a share of the width.
 *
 * @returns the box's left edge where `from` is left, else its right edge
 */
export function freePlace(
	{ width, low, high }: Box,
	curves: readonly (readonly CurvePoint[])[],
	uprights: readonly number[],
	from: 'left' | 'right',
): number {
	const crossed = (x: number): number =>
		curves.filter((curve) => curve.some((point, i) => meets(curve[i - 1] ?? point, point, x, x + width, low, high)))
			.length + uprights.filter((upright) => upright >= x && upright <= x + width).length;
	let best = { x: 0, lines: Number.POSITIVE_INFINITY };
	for (let i = 0; i <= steps; i++) {
		const way = (i / steps) * (1 - width);
		const x = from === 'left' ? way : 1 - width - way;
		const lines = crossed(x);
		if (lines < best.lines) best = { x, lines };
	}
	return from === 'left' ? best.x : best.x + width;
}

/** Whether the line between two points runs through a box. */
function meets(
	[x1, y1]: CurvePoint,
	[x2, y2]: CurvePoint,
	left: number,
	right: number,
	low: number,
	high: number,
): boolean {
	if (x2 < left || x1 > right) return false;
	const at = (x: number): number => (x2 === x1 ? y1 : y1 + ((y2 - y1) * (x - x1)) / (x2 - x1));
	const [first, last] = [at(Math.max(left, x1)), at(Math.min(right, x2))];
	return Math.max(first, last) >= low && Math.min(first, last) <= high;
}
