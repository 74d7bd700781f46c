/** The next of 1, 2, 5 times a power of ten at or above a positive number: steps of an axis. */
export function roundStep(least: number): number {
	const exponent = Number(least.toExponential().split('e')[1]);
	for (const factor of [1, 2, 5]) {
		const step = Number(`${factor}e${exponent}`);
		if (step >= least * (1 - 1e-9)) return step;
	}
	return Number(`1e${exponent + 1}`);
}
