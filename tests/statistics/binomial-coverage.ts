/**
 * Coverage of an interval for a binomial share by summation: the probability of
 * all x whose interval holds p. Terms by recursion from the mode, in both directions.
 */
export function binomialCoverage(
	trials: number,
	p: number,
	holds: (successes: number) => boolean,
): { coverage: number; total: number } {
	const mode = Math.min(trials, Math.floor((trials + 1) * p));
	const terms = new Float64Array(trials + 1);
	terms[mode] = 1;
	for (let x = mode; x < trials; x++) terms[x + 1] = ((terms[x] as number) * (trials - x) * p) / ((x + 1) * (1 - p));
	for (let x = mode; x > 0; x--) terms[x - 1] = ((terms[x] as number) * x * (1 - p)) / ((trials - x + 1) * p);
	let total = 0;
	let covered = 0;
	for (let x = 0; x <= trials; x++) {
		total += terms[x] as number;
		if (holds(x)) covered += terms[x] as number;
	}
	return { coverage: covered / total, total };
}
