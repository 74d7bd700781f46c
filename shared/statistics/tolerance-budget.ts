/** What one part does to a figure. */
export interface PartEffect {
	/** Change of the figure with this part at its lower limit and all others in the middle. */
	readonly low: number;
	/** The same at its upper limit. */
	readonly high: number;
	/** Standard deviation of the part over the half-width of its limits; 1/√3 for a uniform one. */
	readonly sdInHalfWidths: number;
}

export interface ToleranceBudget {
	/** Σ|s|: how far the figure moves, by linear sum, with every part at its worse limit. */
	readonly extreme: number;
	/** √Σs². */
	readonly rootSumSquare: number;
	/** √Σ(s·r)² with r the part's standard deviation in half-widths: linear propagation of the distributions. */
	readonly standardDeviation: number;
	/** Limit of each part that raises the figure: +1 upper, −1 lower, 0 where it does nothing. The other way round lowers it. */
	readonly raising: readonly (-1 | 0 | 1)[];
}

/**
 * The classical budgets of independent parts from their signed sensitivities
 * s = (high − low)/2, the change of the figure per half-width of tolerance.
 * Textbook formulas; linear propagation also in JCGM 100:2008, 5.1.2.
 */
export function toleranceBudget(effects: readonly PartEffect[]): ToleranceBudget {
	let extreme = 0;
	let squares = 0;
	let variance = 0;
	const raising = effects.map(({ low, high, sdInHalfWidths }): -1 | 0 | 1 => {
		const s = (high - low) / 2;
		if (!Number.isFinite(s)) throw new RangeError(`a part's effects must be finite, not ${low} and ${high}`);
		extreme += Math.abs(s);
		squares += s * s;
		variance += s * sdInHalfWidths * (s * sdInHalfWidths);
		return s > 0 ? 1 : s < 0 ? -1 : 0;
	});
	return { extreme, rootSumSquare: Math.sqrt(squares), standardDeviation: Math.sqrt(variance), raising };
}
