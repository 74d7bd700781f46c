/**
 * Root of a function between two points where its signs differ, to the last bits
 * of a double (Chandrupatla's choice between inverse quadratic interpolation and
 * bisection, Advances in Engineering Software 28 (1997) 145–149).
 */
export function findRoot(f: (x: number) => number, low: number, high: number): number {
	let a = low;
	let b = high;
	let fa = f(a);
	let fb = f(b);
	if (fa === 0) return a;
	if (fb === 0) return b;
	if (!(fa * fb < 0)) throw new RangeError(`no change of sign between ${low} (${fa}) and ${high} (${fb})`);
	let t = 0.5;
	for (let step = 0; step < 300; step++) {
		const x = a + t * (b - a);
		const fx = f(x);
		// c is the point given up, b the one across the root from a = x
		const sameSide = fx > 0 === fa > 0;
		const c = sameSide ? a : b;
		const fc = sameSide ? fa : fb;
		if (!sameSide) {
			b = a;
			fb = fa;
		}
		a = x;
		fa = fx;
		const best = Math.abs(fa) < Math.abs(fb) ? a : b;
		const width = Math.abs(b - a);
		const relativeTolerance = (4 * Number.EPSILON * Math.abs(best) + Number.MIN_VALUE) / width;
		if (fa === 0 || relativeTolerance >= 0.5) return best;
		const xi = (a - b) / (c - b);
		const phi = (fa - fb) / (fc - fb);
		const interpolates = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi;
		t = interpolates
			? (fa / (fb - fa)) * (fc / (fb - fc)) + (((c - a) / (b - a)) * fa * fb) / ((fc - fa) * (fc - fb))
			: 0.5;
		t = Math.min(Math.max(t, relativeTolerance), 1 - relativeTolerance);
	}
	return a;
}
